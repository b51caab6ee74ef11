package course_test

import (
	"strings"
	"testing"

	"awn/course"
	"awn/malt"
	"awn/programme"
)

// A lot of which 97 of 100 germinate in 4 mL of water, 62 in 8 mL and 98 at all,
// lay 12 h in its first water. At the second drain 38 of 100 had chitted, wet
// enough at 44 %. It is short of oxygen, not of water: a rest with air drawn
// through brings it on, a third immersion in the same hours does not.
// Common practice, no source.
func TestStalledChit(t *testing.T) {
	const drainedH = 12 + 21 + 12 // end of the second immersion
	stalled, rested, third := run(t, load(t, "checks/stalled-chit.yaml")), run(t, load(t, "checks/stalled-chit-rest.yaml")), run(t, load(t, "checks/stalled-chit-third.yaml"))
	next := run(t, load(t, "checks/stalled-chit-next.yaml"))

	// A count of 100 corns that finds 38 leaves 29 to 48 open (Clopper and Pearson 1934).
	within(t, "chit at the second drain", at(stalled, drainedH, programme.Chit), 0.29, 0.48)
	within(t, "moisture inside the corns", at(stalled, drainedH, programme.Moisture), 0.43, 0.45)
	within(t, "living corns, dormant ones left out", stalled.Lot.Capacity.Mid-stalled.Lot.Dormant.Mid, 0.96, 0.98)
	within(t, "water sensitivity", stalled.Lot.WaterSensitivity.Mid, 0.34, 0.36)

	f, ok := told(stalled, "steep.oxygen.short")
	if !ok || f.Act != "act.steep.shorter-immersion-longer-rest" {
		t.Errorf("the stalled steep says %+v", f)
	}
	within(t, "moisture in the finding", figure(f, "moisture_wb"), 0.43, 0.45)
	for _, code := range []string{"steep.moisture.low", "steep.chit.impossible"} {
		if f, ok := told(stalled, code); ok {
			t.Errorf("the stalled steep blames %v", f)
		}
	}

	restedAt, thirdAt := at(rested, drainedH+14, programme.Chit), at(third, drainedH+14, programme.Chit)
	t.Logf("14 h later %.0f of 100 with a rest, %.0f with a third immersion", 100*restedAt, 100*thirdAt)
	within(t, "chit after a rest", restedAt, 0.80, 1)
	within(t, "chit after a third immersion", thirdAt, 0, restedAt-0.10)
	if _, ok := told(rested, "steep.oxygen.short"); ok {
		t.Error("a rest with air leaves the finding standing")
	}
	if _, ok := told(third, "steep.oxygen.short"); !ok {
		t.Error("a third immersion makes the finding vanish")
	}
	// What the next piece of the lot should have.
	within(t, "chit with a short first water", stage(t, next, course.Steep).End[programme.Chit], 0.90, 1)
	for _, f := range next.Findings {
		if strings.HasPrefix(f.Code, "steep.oxygen") || strings.HasPrefix(f.Code, "steep.chit") {
			t.Errorf("the next piece earns %v", f)
		}
	}
}

// Return air opened by the clock before the bed has broken leaves its top wet
// under a mean that passes. The findings name the wettest layer, how far the layers
// lie apart and the cause; opened after the break, all of it vanishes.
// Common practice, no source.
func TestEarlyReturnAir(t *testing.T) {
	early, after := run(t, load(t, "checks/early-return.yaml")), run(t, load(t, "checks/early-return-after-break.yaml"))
	t.Logf("early: %.1f %%, wettest %.1f, sd %.2f; after the break: %.1f %%, wettest %.1f, sd %.2f",
		100*early.Kilned.MoistureMean, 100*early.Kilned.MoistureWettest, 100*early.Kilned.SpreadSD,
		100*after.Kilned.MoistureMean, 100*after.Kilned.MoistureWettest, 100*after.Kilned.SpreadSD)
	within(t, "mean", early.Kilned.MoistureMean, 0, 0.05)
	for _, v := range early.Judged {
		if v.Word != malt.Passes {
			t.Errorf("the mean is judged: %s", v.Word)
		}
	}
	wet, ok := told(early, "kiln.strip.wet")
	if !ok || wet.Layer != 59 {
		t.Errorf("the wet top is told as %+v", wet)
	}
	within(t, "wettest layer", figure(wet, "worst_layer_wb"), 0.06, 0.08)
	cause, ok := told(early, "kiln.recirculation.early")
	if !ok || cause.Act != "act.kiln.recirculate-after-break" {
		t.Errorf("the cause is told as %+v", cause)
	}
	near(t, "hour of the cause", cause.AtH, 6, 0.25)
	for _, code := range []string{"kiln.strip.wet", "kiln.recirculation.early"} {
		if f, ok := told(after, code); ok {
			t.Errorf("after the break there is still %v", f)
		}
	}
	within(t, "wettest layer after the break", after.Kilned.MoistureWettest, 0, 0.06)
	if !(after.Kilned.SpreadSD < early.Kilned.SpreadSD) {
		t.Error("the layers lie no nearer to each other")
	}
}
