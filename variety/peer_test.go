package variety

import (
	"bytes"
	"context"
	"encoding/csv"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"awn/internal/tools/need"
	"awn/mixed"
)

// BenchmarkBesideLme4 fits the same trials with lme4 and here, one after the
// other in one run, and fails unless the answers are equal: components to 1e-4 of
// themselves, log-likelihood to 1e-3, which is where the optimiser of lme4 stops. The
// seconds are of the fit alone on either side.
func BenchmarkBesideLme4(b *testing.B) {
	for _, c := range []struct {
		name, formula string
		terms         map[string]string // of lme4, by ours
		Trials
	}{
		{"152x16", "y ~ environment + (1|entry)", map[string]string{EntryTerm: "entry"}, grown(152, 16, 1, 0)},
		{"240x37", "y ~ environment + (1|entry)", map[string]string{EntryTerm: "entry"}, grown(240, 37, 1, 0.16)},
		{"240x12x3", "y ~ environment + (1|entry) + (1|entry:site) + (1|entry:year)",
			map[string]string{EntryTerm: "entry", EntrySiteTerm: "entry:site", EntryYearTerm: "entry:year"}, grown(240, 12, 3, 0.14)},
	} {
		b.Run(c.name, func(b *testing.B) {
			theirs := lme4(b, c.Trials, c.formula)
			model := plan(c.Trials.with(0), 0, false).model(false)
			var fit *mixed.Fit
			least := time.Duration(1 << 62)
			for b.Loop() {
				start := time.Now()
				var err error
				if fit, err = model.Fit(context.Background(), mixed.Options{}); err != nil {
					b.Fatal(err)
				}
				least = min(least, time.Since(start))
			}
			for ours, name := range c.terms {
				// One that is zero is zero on both sides: 1e-6 of the residual.
				near(b, name, fit.Variance(ours), theirs[name], 1e-4*theirs[name]+1e-6*theirs["Residual"])
			}
			closeTo(b, "residual", fit.Variance(mixed.Residual), theirs["Residual"], 1e-4)
			near(b, "log-likelihood", fit.LogLik, theirs["loglik"], 1e-3)
			b.ReportMetric(float64(len(model.Y)), "cells")
			b.ReportMetric(1000*least.Seconds(), "ours-ms")
			b.ReportMetric(1000*theirs["seconds"], "lme4-ms")
			b.ReportMetric(theirs["seconds"]/least.Seconds(), "times-faster")
		})
	}
}

// lme4 fits a trial with lme4 and returns what testdata/lme4.R prints.
func lme4(b *testing.B, tr Trials, formula string) map[string]float64 {
	rscript, err := exec.LookPath("Rscript")
	need.Met(b, "lme4", err == nil && exec.Command(rscript, "-e", "library(lme4)").Run() == nil)
	var text bytes.Buffer
	w := csv.NewWriter(&text)
	w.Write([]string{"entry", "site", "year", "environment", "y"})
	for _, r := range tr.Records {
		w.Write([]string{r.Entry, r.Site, "Y" + r.when(), r.where(), strconv.FormatFloat(r.Value[0], 'g', 17, 64)})
	}
	w.Flush()
	file := filepath.Join(b.TempDir(), "trial.csv")
	if err := os.WriteFile(file, text.Bytes(), 0o600); err != nil {
		b.Fatal(err)
	}
	out, err := exec.Command(rscript, "testdata/lme4.R", file, formula).Output()
	if err != nil {
		b.Fatal(err)
	}
	figures := map[string]float64{}
	for line := range strings.Lines(string(out)) {
		if f := strings.Fields(line); len(f) == 2 {
			figures[f[0]] = number(b, f[1])
		}
	}
	return figures
}
