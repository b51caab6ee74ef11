package ledger_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"iter"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"awn/internal/tools/need"
	"awn/ledger"
)

// python is the program of docs/method/record.md, which checks a record with
// the hash of another library. It reads facts as lines of JSON.
func python(t *testing.T) string {
	text, err := os.ReadFile("../docs/method/record.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(text), "```python\n")
	program, _, found := strings.Cut(rest, "```")
	if !found {
		t.Fatal("the page has no program")
	}
	return program
}

// lines writes facts as an export has them.
func lines(t *testing.T, facts []ledger.Fact) []byte {
	var out bytes.Buffer
	for _, f := range facts {
		text, err := json.Marshal(map[string]any{
			"house": f.House, "seq": f.Seq, "id": f.ID, "kind": f.Kind, "schema": f.Schema, "at": f.At, "offset_min": f.OffsetMin,
			"entered": f.Entered, "who": f.Who, "body": string(f.Body), "hash": hexOf(f.Hash),
		})
		if err != nil {
			t.Fatal(err)
		}
		out.Write(append(text, '\n'))
	}
	return out.Bytes()
}

func TestRecordCheckedWithoutThisProgram(t *testing.T) {
	need.Program(t, "python3")
	path, _ := need.Find("python3")
	b := recall(t, ledger.DrawnMixed)
	b.facts[3].Who = "Ærø" // not only letters of ASCII
	b.facts = rechained(b.facts)
	run := func(facts []ledger.Fact) (string, error) {
		cmd := exec.Command(path, "-c", python(t))
		cmd.Stdin = bytes.NewReader(lines(t, facts))
		out, err := cmd.CombinedOutput()
		return string(bytes.TrimSpace(out)), err
	}
	last := b.facts[len(b.facts)-1]
	out, err := run(b.facts)
	if want := itoa(last.Seq) + " " + hexOf(last.Hash); err != nil || out != want {
		t.Errorf("Python says %q (%v), want %q", out, err, want)
	}
	b.facts[4].At++
	if out, err := run(b.facts); err == nil || out != "broken at 5" {
		t.Errorf("Python says %q of a changed fact", out)
	}
}

// rechained gives facts the hashes that go with what they say.
func rechained(facts []ledger.Fact) []ledger.Fact {
	var head ledger.Head
	out := slices.Clone(facts)
	for i := range out {
		out[i].Hash = out[i].Sum(head.Hash)
		head = ledger.Head{Seq: out[i].Seq, Hash: out[i].Hash}
	}
	return out
}

func each(facts []ledger.Fact) iter.Seq2[ledger.Fact, error] {
	return func(yield func(ledger.Fact, error) bool) {
		for _, f := range facts {
			if !yield(f, nil) {
				return
			}
		}
	}
}

func TestVerifyNamesTheFirstBrokenLink(t *testing.T) {
	good := recall(t, ledger.DrawnMixed).facts
	head, err := ledger.Verify(each(good), ledger.Head{Seq: 3, Hash: good[2].Hash})
	if err != nil || head.Seq != int64(len(good)) || head.Hash != good[len(good)-1].Hash {
		t.Fatalf("%v, %v", head, err)
	}
	for name, c := range map[string]struct {
		change func(f []ledger.Fact) []ledger.Fact
		code   string
		seq    int64
	}{
		"body":    {func(f []ledger.Fact) []ledger.Fact { f[4].Body = append([]byte(" "), f[4].Body...); return f }, "record.chain.hash", 5},
		"who":     {func(f []ledger.Fact) []ledger.Fact { f[4].Who += "x"; return f }, "record.chain.hash", 5},
		"entered": {func(f []ledger.Fact) []ledger.Fact { f[4].Entered++; return f }, "record.chain.hash", 5},
		"moved": {func(f []ledger.Fact) []ledger.Fact {
			f[4].ID, f[4].Kind = f[4].ID+string(f[4].Kind[:1]), f[4].Kind[1:]
			return f
		}, "record.chain.hash", 5},
		"left out":  {func(f []ledger.Fact) []ledger.Fact { return slices.Delete(f, 6, 7) }, "record.chain.gap", 7},
		"swapped":   {func(f []ledger.Fact) []ledger.Fact { f[6], f[7] = f[7], f[6]; return f }, "record.chain.gap", 7},
		"cut short": {func(f []ledger.Fact) []ledger.Fact { return f[:2] }, "record.chain.head", 3},
		"forked":    {func(f []ledger.Fact) []ledger.Fact { f[2].At++; return rechained(f) }, "record.chain.head", 3},
		"house":     {func(f []ledger.Fact) []ledger.Fact { f[1].House = "other"; return rechained(f) }, "record.chain.house", 2},
	} {
		_, err := ledger.Verify(each(c.change(slices.Clone(good))), ledger.Head{Seq: 3, Hash: good[2].Hash})
		b, ok := errors.AsType[*ledger.Broken](err)
		if !ok || b.Code != c.code || b.Seq != c.seq {
			t.Errorf("%s: %v, want %s at %d", name, err, c.code, c.seq)
		}
	}
}
