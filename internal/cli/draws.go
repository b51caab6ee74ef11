package cli

import (
	"errors"
	"fmt"
	"math"
	"runtime"
	"strconv"
	"strings"

	"awn/course"
)

// usualDraws are enough to look at; a release wants 1000.
const usualDraws = 200

// drawing is what is asked of the draws on the command line.
type drawing struct {
	Draws howMany `placeholder:"N" help:"Draw what is uncertain: 200 to look, 1000 for release."`
	Seed  uint64  `default:"1" placeholder:"S" help:"Seed of the draws; the same gives the same."`
}

// howMany is a number of draws; 0 where none is asked for.
type howMany int

// mostDraws keeps what is held of the draws within the memory of a small machine.
const mostDraws = 10_000

// UnmarshalText reads the number.
func (n *howMany) UnmarshalText(text []byte) error {
	x, err := strconv.Atoi(string(text))
	if err != nil || x < 1 || x > mostDraws {
		return fmt.Errorf("%s is no number of draws: give 1 to %d, such as 200", text, mostDraws)
	}
	*n = howMany(x)
	return nil
}

// partial says that a sum was stopped, with what it had.
type partial struct{ done, asked int }

func (e *partial) Error() string {
	return fmt.Sprintf("stopped after %d of %d draws; what is written rests on those alone", e.done, e.asked)
}

// draw draws pieces together, and says how far it is. A stop by the user gives
// what there is and a *partial; with nothing to show it gives the stop alone.
func (d *drawing) draw(j *job, pieces ...*course.Piece) ([]*course.Ensemble, error) {
	p := j.meter()
	defer p.end()
	all, err := course.DrawTogether(j.ctx, pieces, course.Sampling{
		Draws: int(d.Draws), Seed: d.Seed, Workers: runtime.GOMAXPROCS(0),
		Told: func(done int) { p.tell(done, int(d.Draws), "draws") },
	})
	if err != nil {
		return nil, &refusal{err}
	}
	if e := all[0]; e.Done < e.Asked {
		if e.Done == 0 {
			return nil, j.ctx.Err()
		}
		return all, &partial{e.Done, e.Asked}
	}
	return all, nil
}

// totals adds the total shares of the groups.
func totals(j *job, o *course.Odds) error {
	p := j.meter()
	defer p.end()
	var err error
	o.Totals, err = o.Ensemble.Totals(j.ctx, runtime.GOMAXPROCS(0), func(done, of int) { p.tell(done, of, "runs for the shares") })
	if err != nil {
		return &partial{o.Done, o.Asked}
	}
	return nil
}

// chance reads a risk: "5%", "5 %" or "0.05".
func chance(text string) (float64, error) {
	number, percent := strings.CutSuffix(strings.ReplaceAll(text, " ", ""), "%")
	x, err := strconv.ParseFloat(number, 64)
	if percent {
		x /= 100
	}
	if err != nil || math.IsNaN(x) || x <= 0 || x >= 0.5 {
		return 0, &lineError{fmt.Sprintf("--risk %s is not a risk: give one above 0 and below 50 %%, such as 5%%.", text)}
	}
	return x, nil
}

// stopped reports whether an error only says that there is less than was asked.
func stopped(err error) bool {
	var p *partial
	return errors.As(err, &p)
}
