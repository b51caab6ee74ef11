package web

import (
	"fmt"
	"html/template"
	"time"

	"awn/course"
	"awn/internal/expect"
)

// remembers keeps what pieces under way come to: it changes with a reading or an
// act, and is looked at by everybody all the time.
type remembers struct {
	weights memory[weighing, weighed]
	odds    memory[*course.Ensemble, *course.Odds]
	bodies  memory[shownAt, shownBody]
}

// weighing is what draws are weighed by, weighed what comes of it.
type weighing struct {
	drawn *course.Ensemble
	found string
}
type weighed struct {
	drawn     *course.Ensemble
	effective float64
}

// given weighs draws by what was found.
func (m *remembers) given(drawn *course.Ensemble, found []course.Found) (*course.Ensemble, float64) {
	w := m.weights.of(weighing{drawn, fmt.Sprint(found)}, func() (w weighed) {
		defer turn()()
		w.drawn, w.effective = drawn.Given(found)
		return w
	})
	return w.drawn, w.effective
}

// weigh is the odds of draws.
func (m *remembers) weigh(drawn *course.Ensemble) *course.Odds {
	return m.odds.of(drawn, func() *course.Odds {
		defer turn()()
		return drawn.Weigh(course.UsualRisk)
	})
}

// shownAt is what the account of a piece under way is set of: it is set anew every
// minute, for now moves.
type shownAt struct {
	drawn       *course.Ensemble
	at, by, csv string
}
type shownBody struct {
	html template.HTML
	err  error
}

// body is the account of a piece as it is expected now.
func (s *Server) body(v visit, f *expect.Forecast, csv string) (template.HTML, error) {
	key := shownAt{f.Drawn, fmt.Sprint(f.Now.Truncate(time.Minute).Unix(), f.Begun), v.Units.Chosen(), csv}
	b := s.remembers.bodies.of(key, func() (b shownBody) {
		account := s.expected(v, f)
		defer turn()()
		b.html, b.err = set(account.Live(), csv)
		return b
	})
	return b.html, b.err
}
