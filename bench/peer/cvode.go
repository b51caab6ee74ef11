package main

import (
	"bytes"
	_ "embed"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
)

//go:embed cvode/kiln.c
var source []byte

var errNoPeer = errors.New("the C side cannot be built: no C compiler, or no SUNDIALS headers")

// flags are those of an ordinary optimised build; nothing that changes how
// arithmetic rounds.
var flags = []string{"-std=gnu11", "-O3", "-march=native", "-fno-math-errno"}

var libraries = []string{
	"-lsundials_cvode", "-lsundials_nvecserial", "-lsundials_sunlinsoldense", "-lsundials_sunmatrixdense", "-lm",
}

// build compiles the C side into dir and returns the program.
func build(dir string) (string, error) {
	cc, err := exec.LookPath("cc")
	if err != nil {
		return "", errNoPeer
	}
	probe := exec.Command(cc, "-E", "-")
	probe.Stdin = strings.NewReader("#include <cvode/cvode.h>\n")
	if probe.Run() != nil {
		return "", errNoPeer
	}
	file, program := filepath.Join(dir, "kiln.c"), filepath.Join(dir, "kiln")
	if err := os.WriteFile(file, source, 0o644); err != nil {
		return "", err
	}
	args := append(append(flags[:len(flags):len(flags)], "-o", program, file), libraries...)
	if out, err := exec.Command(cc, args...).CombinedOutput(); err != nil {
		return "", fmt.Errorf("%s: %w\n%s", cc, err, out)
	}
	return program, nil
}

// cvode is the C side at one relative tolerance; lu says who factors the
// Newton matrix, "library" or "ours".
type cvode struct{ program, rtol, lu string }

// The two readings of the case that the C side knows: plain, and with the heat
// of sorption and the mixing of air as the kiln of awn has them.
const plain, asAwn = "plain", "awn"

func (c cvode) run() (answer, error) {
	rows, err := c.numbers("1", asAwn)
	if err != nil {
		return answer{}, err
	}
	if len(rows) != 1 || len(rows[0]) != 7 {
		return answer{}, fmt.Errorf("the C side printed %v", rows)
	}
	r := rows[0]
	return answer{meanPct: r[0], bottomPct: r[1], topPct: r[2], breakH: r[3], ms: r[6]}, nil
}

func (c cvode) trace() ([][]float64, error) { return c.numbers("0", asAwn) }

// numbers runs the program and reads the rows of figures that it prints.
func (c cvode) numbers(runs, house string) ([][]float64, error) {
	cmd := exec.Command(c.program, c.rtol, runs, house, c.lu)
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		return nil, err
	}
	var rows [][]float64
	for line := range bytes.Lines(out) {
		var row []float64
		for _, f := range strings.Fields(string(line)) {
			x, err := strconv.ParseFloat(f, 64)
			if err != nil {
				return nil, err
			}
			row = append(row, x)
		}
		rows = append(rows, row)
	}
	return rows, nil
}
