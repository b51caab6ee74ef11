package crop

import (
	"bytes"
	"encoding/csv"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"awn/finding"
	"awn/intake"
)

func parsed(text string) [][]string {
	r := csv.NewReader(strings.NewReader(text))
	r.FieldsPerRecord = -1
	rows, _ := r.ReadAll()
	return rows
}

func faultCodes(faults []finding.Cell) (out []string) {
	for _, f := range faults {
		out = append(out, f.Code)
	}
	return out
}

func remarkCodes(remarks []Remark) (out []string) {
	for _, r := range remarks {
		out = append(out, r.Code)
	}
	return out
}

const head = "district,variety,farm,weight,protein,don\n"

// Whatever is wrong is told together, each with its place and the nearest word.
func TestFaultsAreToldTogether(t *testing.T) {
	for text, want := range map[string][]string{
		"distict,variety,farm,protein\nA,V,f,10\n":                   {"survey.header.unknown", "survey.header.missing"},
		"district,variety,farm\nA,V,f\n":                             {"survey.header.missing"},
		"district,variety,farm,weight,protein,protein\nA,V,f,1,10,9": {"survey.header.twice"},
		"district,variety,farm,weight,protein [lb]\nA,V,f,1,10":      {"survey.header.unit"},
		head: {"survey.table.empty"},
		head + "A,V,,1,10,\nA,V,f,-1,10,\nA,V,f,1,\"1,5\",nd\nA,V,f,1,<9,x\nA,V,f,1,99,,7\n": {
			"survey.name.missing", "survey.cell.range", "survey.cell.comma", "survey.cell.no-limit", "survey.cell.below", "survey.cell.not-a-number",
			"survey.cell.range", "survey.row.long", "survey.weight.missing"},
	} {
		if _, faults := Read(parsed(text), nil); !slices.Equal(faultCodes(faults), want) {
			t.Errorf("%q: %v, want %v", text, faultCodes(faults), want)
		}
	}
	if _, faults := Read(parsed("distict,variety,farm,protein\n"), nil); faults[0].Meant != "district" {
		t.Errorf("%+v names no nearest word", faults[0])
	}
}

// A column may be named by the user, and a sieve names its own slot.
func TestColumnsAndSlots(t *testing.T) {
	s, faults := Read(parsed("Kreis,Sorte,Hof,weight,Eiweiss [% asis],moisture,plump [6/64 in],thin [% 2.2 mm],don [ppb]\nA,V,f,1,9,10,90,2,<200\n"),
		map[string]Column{"Kreis": DistrictColumn, "Sorte": VarietyColumn, "Hof": FarmColumn, "Eiweiss": "protein"})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	at := func(k intake.Key) float64 { return s.Samples[0].Readings[s.Quality(k)].X }
	near(t, "protein of dry matter", at(intake.Of(intake.Protein)), 0.10, 1e-12)
	near(t, "held by 6/64 in", at(intake.Key{Factor: intake.Held, SlotM: intake.Slot64(6)}), 0.9, 1e-12)
	near(t, "DON", at(intake.Of(intake.DON)), 2e-7, 1e-18)
	if s.Quality(intake.Key{Factor: intake.Held, SlotM: plumpSlotM}) >= 0 {
		t.Error("a sieve in 64ths of an inch is read as one in millimetres")
	}
}

// Surveys that say little, and what is said of them.
func TestPoorSurveys(t *testing.T) {
	frame := [][]string{{"district", "variety", "farms", "tonnes"}, {"A", "V", "9", "100"}, {"B", "V", "9", "1000"}}
	for text, want := range map[string]string{
		head + "A,V,f,1,10,0.3\nB,V,g,1,11,0.4\n":                                         "survey.farm.single-everywhere",
		head + "A,V,f,1,10,0.3\nA,V,h,1,12,0.3\nB,V,g,1,11,0.4\n":                         "survey.farm.single",
		head + "A,V,f,50,10,<0.2\nA,V,h,50,12,<0.2\nB,V,g,1,11,<0.2\nB,V,k,1,11.5,<0.2\n": "survey.quality.all-below",
		head + "A,V,f,50,10,\nA,V,h,50,12,\nB,V,g,1,11,\nB,V,k,1,11.5,\n":                 "survey.weight.sum",
		head + "A,V,f,50,10,\nA,V,h,50,10,\n":                                             "survey.quality.constant",
		head + "A,V,f,50,10,\nA,V,f,50,10,\n":                                             "survey.quality.empty",
		"district,variety,farm,protein\nA,V,f,10\nA,V,g,11\n":                             "survey.weight.none",
		"district,variety,farm,area,protein\nA,V,f,5,10\nA,V,g,5,11\n":                    "survey.weight.area",
		head + "A,V,f,1,50,\nA,v,g,1,10,\n":                                               "survey.cell.range",
		head + "A,V,f,1,20,\nA,V,g,1,10,\n":                                               "survey.value.unlikely",
		head + "A,V,f,1,10,0\nA,V,g,1,10.5,0.3\n":                                         "survey.value.zero",
		head + "A,V,f,1,10,\nA,v,g,1,10,\n":                                               "survey.name.lookalike",
		head + "A,V,f,1,10,0.3\nA,V,f,1,10,0.3\n":                                         "survey.sample.twice",
	} {
		s, faults := Read(parsed(text), nil)
		if strings.HasPrefix(want, "survey.cell") {
			if !slices.Contains(faultCodes(faults), want) {
				t.Errorf("%q: %v", text, faultCodes(faults))
			}
			continue
		}
		s.ReadFrame(frame)
		sum := s.Summarise(question())
		if !slices.Contains(remarkCodes(sum.Remarks), want) {
			t.Errorf("%q: %v lacks %s", text, remarkCodes(sum.Remarks), want)
		}
		for _, r := range slices.Concat(sum.Remarks, sum.Findings) {
			for _, f := range r.Figures {
				if math.IsInf(f.Value, 0) {
					t.Errorf("%q: %s of %s is %v", text, f.Name, r.Code, f.Value)
				}
			}
		}
	}
}

// question asks for all that can be asked.
func question() Question {
	c := &intake.Contract{Name: "any", PriceT: 200, Terms: []intake.Term{
		{Column: intake.Column{Key: intake.Of(intake.Protein), In: intake.PerCent, Decimals: 1}, Least: 9.5, Most: 10.5},
		{Column: intake.Column{Key: intake.Of(intake.DON), In: intake.MgPerKg, Decimals: -1}, Least: math.NaN(), Most: 0.1},
		{Column: intake.Column{Key: intake.Of(intake.Admixture), In: intake.PerCent, Decimals: 1}, Least: math.NaN(), Most: 2},
	}}
	return Question{Buyers: []Buyer{{c, 50}}, ElsewhereT: 150, Aims: []Aim{{intake.Of(intake.Protein), 0.001}}}
}

// A stratum that is alone in being withheld could be had by subtraction.
func TestWithheldStrataCannotBeSubtracted(t *testing.T) {
	var strata []Small
	for _, d := range []string{"A", "B", "C"} {
		for k, v := range []string{"U", "V", "W"} {
			strata = append(strata, Small{Stratum: Stratum{d, v}, Farms: 6 + k})
		}
	}
	strata[0].Farms = 3
	withhold(strata)
	for _, along := range []func(Small) string{func(s Small) string { return s.District }, func(s Small) string { return s.Variety }} {
		n := map[string]int{}
		for _, s := range strata {
			if s.Withheld {
				n[along(s)]++
			}
		}
		for name, k := range n {
			if k == 1 {
				t.Errorf("one stratum alone is withheld of %s", name)
			}
		}
	}
	if !strata[0].Withheld {
		t.Error("a stratum of three farms is shown")
	}
}

// Tonnes of strata without a line in the frame are counted once, however often
// the survey is parted into seasons.
func TestTonnesAreCountedOnce(t *testing.T) {
	s := sound(t, parsed(head+"A,V,f,10,10,\nA,V,g,20,11,\n"))
	if got := s.Of(0).Of(0).Frames[0].Tonnes; got != 30 {
		t.Errorf("%v t of 30", got)
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(head + "A,V,f,1,10,<0.2\nA,V,g,2,11,0.5\nB,V,g,2,,\n"))
	f.Add([]byte("district,variety,farm,tonnes,farms_frame,farms_sampled,bins_farm,bins_sampled,season,plump [6/64 in]\nA,V,f,1,9,2,3,1,2026,90\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		r := csv.NewReader(bytes.NewReader(data))
		r.FieldsPerRecord = -1
		rows, err := r.ReadAll()
		if err != nil || len(rows) > 60 {
			return
		}
		s, _ := Read(rows, nil)
		s.ReadFrame(rows)
		s.ReadPlaces(rows)
		if _, faults := ReadPilots(rows); faults == nil && len(rows) == 0 {
			t.Error("no table is no fault")
		}
		sum := s.Summarise(question())
		for _, k := range sum.Takings {
			if v := k.All.Share.Value; v < -1e-9 || v > 1+1e-9 {
				t.Errorf("a share of %v", v)
			}
		}
		if again := s.Summarise(question()); !reflect.DeepEqual(remarkCodes(sum.Remarks), remarkCodes(again.Remarks)) {
			t.Error("the same samples are remarked on differently")
		}
	})
}
