package malthouse

import "testing"

// TestSeriesOfVessels: the code of a series begins with its vessel's.
func TestSeriesOfVessels(t *testing.T) {
	for _, c := range []struct {
		code, vessel string
		want         bool
	}{
		{"KILN1-AIR-ON", "kiln 1", true}, {"KILN1", "Kiln 1", true}, {"KILN-1-AIR-ON", "kiln 1", true}, {"B7-2M", "B7", true},
		{"KILN12-AIR-ON", "kiln 1", false}, {"KILN2-AIR-ON", "kiln 1", false}, {"B71", "B7", false}, {"KILN", "kiln 1", false},
		{"KILN1-AIR-ON", "", false}, {"AIR-ON", "kiln 1", false},
	} {
		if got := Reads(c.code, c.vessel); got != c.want {
			t.Errorf("%s of %q: %v", c.code, c.vessel, got)
		}
	}
}

// TestStretchesAreRound: stretches are round by the clock, and never more than
// were asked for.
func TestStretchesAreRound(t *testing.T) {
	for span := int64(1); span < 4e12; span = span*3 + 1 {
		for _, most := range []int{1, 240, 1200, 9000} {
			e := every(span, most)
			if n := (span + e - 1) / e; n > int64(min(max(most, fewestStretches), mostStretches)) {
				t.Errorf("%d ms in %d: %d stretches of %d ms", span, most, n, e)
			}
		}
	}
}

// TestDistrictIsThePlace: the place of a field is what stands behind the last
// comma.
func TestDistrictIsThePlace(t *testing.T) {
	for grown, want := range map[string]string{"field 1, Thrift": "Thrift", "Thrift": "Thrift", "field 1, by the mill, Wenn": "Wenn", "": elsewhere, "field 1, ": elsewhere} {
		if got := district(grown); got != want {
			t.Errorf("%q lies in %q", grown, got)
		}
	}
}
