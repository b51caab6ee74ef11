package course

import "awn/programme"

// locateH is the stretch within which the end of a step by condition is found
// before its reading is taken to run straight, 30 s.
const locateH = 30.0 / 3600

// stage is what the walk through a programme needs of a running stage. Hours
// count from the stage's own start.
type stage[R any] interface {
	To(atH float64) error
	Read(v *programme.Values)
	Clone() R
	Reset(from R)
}

// walk takes one running stage through the steps of its programme, recording
// on the way.
type walk[R stage[R]] struct {
	run   R
	saved R // where the run stood at the last look before a condition was met
	atH   float64
	lookH float64          // between looks at the readings
	now   programme.Values // as last read: here, so that no look allocates
	rec   *recorder
}

// newWalk starts a walk at hour 0 of the stage.
func newWalk[R stage[R]](run R, lookH float64, rec *recorder) *walk[R] {
	w := &walk[R]{run: run, saved: run.Clone(), lookH: lookH, rec: rec}
	w.look()
	return w
}

// look reads the stage where it stands and records what it sees.
func (w *walk[R]) look() {
	w.run.Read(&w.now)
	w.rec.record(w.atH, &w.now)
}

// step runs from now until the condition is met or its latest time is reached.
func (w *walk[R]) step(until programme.Until) (Ended, error) {
	endH := w.atH + until.LatestH
	conditional := until.Reading != programme.None
	if conditional {
		if w.look(); until.Met(&w.now) {
			return ByReading, nil
		}
	}
	for w.atH < endH {
		fromH, was := w.atH, w.now[until.Reading]
		if conditional {
			w.saved.Reset(w.run)
		}
		w.atH = nextLook(fromH, w.lookH, endH)
		if err := w.run.To(w.atH); err != nil {
			return ByTime, err
		}
		w.run.Read(&w.now)
		if conditional && until.Met(&w.now) {
			return ByReading, w.locate(until, was, fromH, w.atH)
		}
		w.rec.record(w.atH, &w.now)
	}
	if conditional {
		return AtLatest, nil
	}
	return ByTime, nil
}

// locate narrows the moment at which the condition is first met to locateH,
// takes the reading to run straight within that, and leaves the run there: so
// the end moves with the figures of a piece and does not jump. The saved run
// stands at lowH, where the condition is not met and was is read.
func (w *walk[R]) locate(until programme.Until, was, lowH, highH float64) error {
	is := w.now[until.Reading]
	for highH-lowH > locateH {
		midH := (lowH + highH) / 2
		w.run.Reset(w.saved)
		if err := w.run.To(midH); err != nil {
			return err
		}
		if w.run.Read(&w.now); until.Met(&w.now) {
			highH, is = midH, w.now[until.Reading]
		} else {
			lowH, was = midH, w.now[until.Reading]
			w.saved.Reset(w.run)
		}
	}
	if part := (until.Value - was) / (is - was); part > 0 && part < 1 {
		highH = lowH + part*(highH-lowH)
	}
	w.run.Reset(w.saved)
	w.atH = highH
	if err := w.run.To(highH); err != nil {
		return err
	}
	w.look()
	return nil
}

// nextLook is the next whole multiple of lookH after fromH, or endH if that
// comes first. A sliver shorter than a thousandth of a look is not a step.
func nextLook(fromH, lookH, endH float64) float64 {
	n := float64(int(fromH/lookH+1e-3) + 1)
	if next := n * lookH; next < endH-1e-3*lookH {
		return next
	}
	return endH
}
