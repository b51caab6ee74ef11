package main

import (
	"errors"
	"strings"
	"testing"
)

// The events below have the form that go test -json prints.
const events = `{"Action":"start","Package":"awn/kiln"}
{"Action":"run","Package":"awn/kiln","Test":"TestA"}
{"Action":"output","Package":"awn/kiln","Test":"TestA","Output":"chatter of a passing test\n"}
{"Action":"pass","Package":"awn/kiln","Test":"TestA"}
{"Action":"output","Package":"awn/kiln","Test":"TestB","Output":"    b_test.go:3: wrong by 2\n"}
{"Action":"fail","Package":"awn/kiln","Test":"TestB"}
{"Action":"output","Package":"awn/kiln","Test":"TestC","Output":"=== RUN   TestC\n"}
{"Action":"output","Package":"awn/kiln","Test":"TestC","Output":"    c_test.go:9: not run: no mill\n"}
{"Action":"skip","Package":"awn/kiln","Test":"TestC"}
{"Action":"output","Package":"awn/kiln","Output":"FAIL\n"}
{"Action":"output","Package":"awn/kiln","Output":"FAIL\tawn/kiln\t0.1s\n"}
{"Action":"fail","Package":"awn/kiln"}
go: a word from the go command
`

func TestTallyCountsAndShows(t *testing.T) {
	var counted tally
	var shown strings.Builder
	if err := counted.read(strings.NewReader(events), &shown); err != nil {
		t.Fatal(err)
	}
	if counted.passed != 1 || counted.failed != 1 || len(counted.skips) != 1 {
		t.Errorf("counted %+v", counted)
	}
	if want := "awn/kiln TestC: c_test.go:9: not run: no mill"; counted.skips[0] != want {
		t.Errorf("skip %q, want %q", counted.skips[0], want)
	}
	want := "    b_test.go:3: wrong by 2\nFAIL\tawn/kiln\t0.1s\ngo: a word from the go command\n"
	if shown.String() != want {
		t.Errorf("shown %q, want %q", shown.String(), want)
	}
}

func TestChoose(t *testing.T) {
	all := (&checker{}).parts()
	some, err := choose(all, "vet,fuzz")
	if err != nil || len(some) != 2 || some[0].name != "vet" || some[1].name != "fuzz" {
		t.Errorf("chose %v, %v", some, err)
	}
	if _, err := choose(all, "vet,polish"); err == nil {
		t.Error("a part that is not there was taken")
	}
}

func TestOneFailureFailsTheRun(t *testing.T) {
	good := []result{{name: "vet"}, {name: "tests"}}
	if !summary(good, tally{}) {
		t.Error("all parts are well and the run failed")
	}
	if summary(append(good, result{name: "fuzz", err: errors.New("no")}), tally{}) {
		t.Error("a part failed and the run passed")
	}
}
