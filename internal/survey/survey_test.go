package survey_test

import (
	"errors"
	"io/fs"
	"strings"
	"testing"

	"awn/course"
	"awn/examples"
	"awn/internal/paper"
	"awn/internal/report"
	"awn/internal/survey"
)

var beside = survey.Files{
	Read: func(name string) ([]byte, error) { return fs.ReadFile(examples.Files, name) },
	Piece: func(name string) (course.Piece, []report.Input, error) {
		piece, in, faults := paper.Load(examples.Files, name)
		if len(faults) > 0 {
			return piece, nil, faults
		}
		return piece, report.Inputs(in), nil
	},
}

// order is the example with some of its text another.
func order(t *testing.T, old, next string) survey.Order {
	t.Helper()
	text, err := fs.ReadFile(examples.Files, examples.FirstSurvey)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(text), old) {
		t.Fatalf("the example does not say %q", old)
	}
	doc, _, faults := paper.LoadSurvey(examples.Files, examples.FirstSurvey, []byte(strings.Replace(string(text), old, next, 1)))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return survey.OrderOf(doc, func(file string) string { return file })
}

// What a document says of lots, seed and further specifications is followed, and
// what was read is named.
func TestTheDocumentIsFollowed(t *testing.T) {
	o := order(t, "  piece: piece.yaml\n", "  piece: piece.yaml\n  lots: 3\n  seed: 7\n  specifications: [specification-munich.yaml]\n")
	var a report.CropAccount
	if err := survey.Report(t.Context(), o, beside, &a); err != nil {
		t.Fatal(err)
	}
	if a.Seed != 7 || a.Malting == nil || a.Malting.Seasons[0].Lots != 3 {
		t.Errorf("seed %d, malted %+v", a.Seed, a.Malting)
	}
	found := 0
	for _, in := range a.Inputs {
		if in.Kind == "specification/1" {
			found++
		}
	}
	if found != 2 { // that of the piece and the further one
		t.Errorf("%d specifications among %v", found, a.Inputs)
	}
}

// What cannot be read is told by its kind, with the file that it is in.
func TestWhatCannotBeRead(t *testing.T) {
	var rows *survey.TableError
	o := order(t, "samples: survey.csv", "samples: survey-places.csv")
	if err := survey.Report(t.Context(), o, beside, &report.CropAccount{}); !errors.As(err, &rows) || rows.File != "survey-places.csv" || len(rows.Cells) == 0 {
		t.Errorf("places in the place of samples: %v", err)
	}
	var season *survey.SeasonError
	o = order(t, "before: [survey-before.csv]", "before: [survey.csv]")
	if err := survey.Report(t.Context(), o, beside, &report.CropAccount{}); !errors.As(err, &season) || season.Before != "survey.csv" {
		t.Errorf("the same season twice: %v", err)
	}
	var aim *survey.AimError
	o = order(t, "samples: survey.csv", "samples: survey.csv")
	o.Within = []survey.Within{{Quality: "gloss", Half: 1}}
	if err := survey.Report(t.Context(), o, beside, &report.CropAccount{}); !errors.As(err, &aim) || aim.Quality != "gloss" {
		t.Errorf("a quality that is none: %v", err)
	}
}
