package paper

import (
	"os"
	"testing"
	"testing/fstest"
)

// The files of a survey lie beside it, and its prices are in one currency.
func TestLoadSurvey(t *testing.T) {
	text, err := os.ReadFile("testdata/good/survey.yaml")
	if err != nil {
		t.Fatal(err)
	}
	contract := func(money string) *fstest.MapFile {
		return &fstest.MapFile{Data: []byte("awn: contract/1\nname: any\nprice: 200 " + money + "/t\nterms:\n  moisture: {at_most: 15 % wb}\n")}
	}
	files := fstest.MapFS{"a/contract-crop.yaml": contract("EUR"), "a/contract-crop-wide.yaml": contract("EUR")}
	for _, name := range []string{"survey.csv", "survey-before.csv", "survey-frame.csv", "survey-places.csv", "survey-pilots.csv", "piece.yaml"} {
		files["a/"+name] = &fstest.MapFile{}
	}
	doc, inputs, faults := LoadSurvey(files, "a/survey.yaml", text)
	if len(faults) > 0 || len(inputs) != 1 || inputs[0].Kind != "survey/1" {
		t.Fatal(inputs, faults)
	}
	if doc.Contracts[1].Wanted.In("t") != 90000 || doc.Elsewhere.In("¤/t") != 165 || doc.Within["protein"] != 0.15 || doc.Malt.Pilots != "survey-pilots.csv" {
		t.Errorf("%+v", doc)
	}
	delete(files, "a/survey-frame.csv")
	files["a/contract-crop-wide.yaml"] = contract("USD")
	_, _, faults = LoadSurvey(files, "a/survey.yaml", text)
	if got := faults.Codes(); len(got) != 2 || got[0] != "document.file.missing" || got[1] != "survey.price.currency" {
		t.Error(faults)
	}
	for _, file := range []string{"../../survey.csv", "/etc/survey.csv"} {
		_, _, faults := LoadSurvey(files, "a/survey.yaml", []byte("awn: survey/1\nsamples: "+file+"\n"))
		if len(faults) != 1 || faults[0].Code != "document.file.name" || faults[0].Line != 2 {
			t.Errorf("%s: %v", file, faults)
		}
	}
}
