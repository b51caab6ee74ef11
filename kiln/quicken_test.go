package kiln

import (
	"fmt"
	"testing"

	"awn/programme"
)

// Damp air that is blown fast through hot dry malt makes its lowest layers answer
// several times faster within one step than they did at its start. Steps of the
// usual length still agree with steps of 10 s: within 0.05 points, as elsewhere,
// and within 2 K, what a cooling front climbs through in some seconds.
func TestDampAirOnHotMalt(t *testing.T) {
	for _, cool := range []float64{0.35, 0.39} {
		for _, outside := range []Outside{{MeanC: 31, RH: 1}, {MeanC: 38, RH: 0.9}} {
			var ends [2]*Run
			for k, stepS := range []float64{UsualStepS, 10} {
				s := paleSetup(t)
				s.Outside, s.Kiln.HeatRecovery, s.StepS = outside, 0.7, stepS
				ends[k] = start(t, s, greenMalt(239, 0.3, 30))
				kilned(t, ends[k], []programme.KilnStep{
					{AirOnC: 87, Flow: programme.Airflow{Value: 0.087}, Until: programme.Until{LatestH: 5.5}},
					{AirOnC: 15, HeaterOff: true, Flow: programme.Airflow{Value: cool}, Until: programme.Until{LatestH: 0.25}},
				})
			}
			usual, fine := &ends[0].columns[0], &ends[1].columns[0]
			for i := range usual.water {
				where := fmt.Sprintf("layer %d, %.2f kg/(m² s) of %.0f °C", i, cool, outside.MeanC)
				near(t, where+", temperature", usual.tempC[i], fine.tempC[i], 2)
				near(t, where+", moisture", 100*usual.moistureWB(i), 100*fine.moistureWB(i), 0.05)
			}
		}
	}
}
