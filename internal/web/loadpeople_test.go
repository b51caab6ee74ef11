package web

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"math/rand/v2"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"awn/examples"
	"awn/internal/paper"
)

// designedStep is the field that a designer changes.
const designedStep = "steep[0].immersion.for"

// opened is the program itself, at work on a made-up year.
type opened struct {
	base, program, record string
	ended                 func() error
}

// openYear builds the program, has it make a year up, and serves that.
func openYear(t *testing.T) (o opened, code string) {
	t.Helper()
	dir := t.TempDir()
	o.program, o.record = filepath.Join(dir, "awn"), filepath.Join(dir, "year", "awn.db")
	if out, err := exec.Command("go", "build", "-o", o.program, "awn/cmd/awn").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	if out, err := exec.Command(o.program, "demo", filepath.Dir(o.record)).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	serve := exec.Command(o.program, "serve", "--db", o.record, "--listen", "127.0.0.1:0")
	pipe, err := serve.StdoutPipe()
	if err == nil {
		serve.Stderr = os.Stderr
		err = serve.Start()
	}
	if err != nil {
		t.Fatal(err)
	}
	ended := false
	o.ended = func() error {
		if ended {
			return nil
		}
		ended = true
		if err := serve.Process.Signal(os.Interrupt); err != nil {
			return err
		}
		return serve.Wait()
	}
	t.Cleanup(func() { _ = o.ended() })
	lines := bufio.NewScanner(pipe)
	for lines.Scan() {
		if m := regexp.MustCompile(`Open (\S+)/first and type this code: (\S+)`).FindStringSubmatch(lines.Text()); m != nil {
			go func() { _, _ = io.Copy(io.Discard, pipe) }()
			o.base = m[1]
			return o, m[2]
		}
	}
	t.Fatal("the program ended before it said where it is")
	return o, ""
}

// caller is somebody with a session.
type caller struct {
	http.Client
	base string
}

func newCaller(base string) *caller {
	jar, _ := cookiejar.New(nil) // it never fails
	return &caller{http.Client{Jar: jar, Timeout: time.Minute, CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}, base}
}

// do asks, and reads the whole answer.
func (c *caller) do(method, path, kind string, body []byte) (status int, text []byte, head http.Header, err error) {
	r, err := http.NewRequest(method, c.base+path, bytes.NewReader(body))
	if err != nil {
		return 0, nil, nil, err
	}
	if kind != "" {
		r.Header.Set("Content-Type", kind)
	}
	a, err := c.Do(r)
	if err != nil {
		return 0, nil, nil, err
	}
	defer a.Body.Close()
	text, err = io.ReadAll(a.Body)
	return a.StatusCode, text, a.Header, err
}

func (c *caller) post(path string, form url.Values) (status int, text []byte, head http.Header, err error) {
	return c.do("POST", path, "application/x-www-form-urlencoded", []byte(form.Encode()))
}

const loadPassword = "seven grey geese fly"

// staff makes the first account, and one for each of so many people.
func (o opened) staff(t *testing.T, code string, n int) (boss *caller, people []*caller) {
	t.Helper()
	boss = newCaller(o.base)
	must := func(what string, want, status int, text []byte, err error) {
		t.Helper()
		if err != nil || status != want {
			t.Fatalf("%s: %d %v %.300s", what, status, err, text)
		}
	}
	status, text, _, err := boss.post("/first", url.Values{"code": {code}, "who": {"runa"}, "name": {"Runa"}, "password": {loadPassword}})
	must("first", http.StatusSeeOther, status, text, err)
	link := regexp.MustCompile(`/join\?link=([^"<\s]+)`)
	for i := range n {
		who := fmt.Sprintf("hand%02d", i)
		body, _ := json.Marshal(map[string]string{"id": newID(time.Now()), "who": who, "name": "Hand " + who, "role": "manager"})
		status, text, _, err := boss.do("POST", apiAt+slipsAt+"person", kindJSON, body)
		must("person", http.StatusOK, status, text, err)
		status, text, _, err = boss.post(peopleAt+"/"+who+"/link", nil)
		must("link", http.StatusOK, status, text, err)
		m := link.FindSubmatch(text)
		if m == nil {
			t.Fatalf("no link: %.400s", text)
		}
		secret, err := url.QueryUnescape(string(m[1]))
		if err != nil {
			t.Fatal(err)
		}
		c := newCaller(o.base)
		status, text, _, err = c.post("/join", url.Values{"link": {secret}, "password": {loadPassword}})
		must("join", http.StatusSeeOther, status, text, err)
		people = append(people, c)
	}
	return boss, people
}

// tally gathers how long things took, what was acknowledged, and what failed.
type tally struct {
	sync.Mutex
	took   map[string][]time.Duration
	acked  []string
	failed map[string]int
}

func (y *tally) add(kind string, took time.Duration, id string, status int, err error) {
	y.Lock()
	defer y.Unlock()
	switch {
	case err != nil:
		y.failed[kind+": "+err.Error()]++
	case status != http.StatusOK && status != http.StatusSeeOther:
		y.failed[fmt.Sprintf("%s: %d", kind, status)]++
	default:
		y.took[kind] = append(y.took[kind], took)
		if id != "" {
			y.acked = append(y.acked, id)
		}
	}
}

// pages are what people look at, each as often as it stands here.
var loadPages = []string{"/floor", "/floor", "/floor", "/deliveries", "/stock", "/pieces", "/pieces/P26-0042", "/pieces/P26-0041", "/malt", "/things/silo:B1", apiAt + "/stock", apiAt + "/pieces", apiAt + "/deliveries?limit=50"}

// refusedIn is what a page or an answer says of a refusal.
var refusedIn = regexp.MustCompile(`class="fault">[^<]*|"says": "[^"]*"`)

// act looks at a page, or enters something: a load, a reading, a move.
func (c *caller) act(y *tally, r *rand.Rand) {
	if r.IntN(2) == 0 {
		start := time.Now()
		status, _, _, err := c.do("GET", loadPages[r.IntN(len(loadPages))], "", nil)
		y.add("pages", time.Since(start), "", status, err)
		return
	}
	id := newID(time.Now())
	name, fields := "receive", map[string]string{"net": fmt.Sprintf("%d kg", 20_000+r.IntN(9000)), "moisture": "12.8 % wb", "silo": fmt.Sprintf("B%d", 1+r.IntN(6)), "grower": "Upper Farm"}
	switch r.IntN(4) {
	case 0, 1:
		name, fields = "read", map[string]string{"thing": "piece:P26-0042", "results": fmt.Sprintf("moisture %d.2 %% wb", 38+r.IntN(5))}
	case 2:
		name, fields = "move", map[string]string{"from": fmt.Sprintf("B%d", 1+r.IntN(3)), "to": fmt.Sprintf("B%d", 4+r.IntN(3)), "mass": "1 t", "moisture": "12.8 % wb"}
	}
	fields["id"] = id
	var status int
	var text []byte
	var err error
	start := time.Now()
	if r.IntN(2) == 0 {
		body, _ := json.Marshal(fields)
		status, text, _, err = c.do("POST", apiAt+slipsAt+name, kindJSON, body)
	} else {
		form := url.Values{"back": {"/floor"}}
		for k, v := range fields {
			form.Set(k, v)
		}
		if status, text, _, err = c.post(slipsAt+name, form); err == nil && status != http.StatusSeeOther {
			status = http.StatusUnprocessableEntity
		}
	}
	took := time.Since(start)
	if err == nil && status != http.StatusOK && status != http.StatusSeeOther {
		err = fmt.Errorf("%s %d: %s", name, status, refusedIn.Find(text))
	}
	y.add("entries", took, id, status, err)
}

// listen holds the stream of events open, as a page does.
func (c *caller) listen(ctx context.Context, heard *tally) {
	r, err := http.NewRequestWithContext(ctx, "GET", c.base+"/live", nil)
	if err != nil {
		return
	}
	stream := *c
	stream.Timeout = 0
	a, err := stream.Do(r)
	if err != nil {
		return
	}
	defer a.Body.Close()
	for lines := bufio.NewScanner(a.Body); lines.Scan(); {
		if strings.HasPrefix(lines.Text(), "event:") {
			heard.Lock()
			heard.failed["events"]++
			heard.Unlock()
		}
	}
}

// design changes a programme and has it drawn with its bands, over and over.
func (c *caller) design(ctx context.Context, y *tally, n int) {
	const file = "programme-pale.yaml"
	text, err := fs.ReadFile(examples.Files, file)
	if err != nil {
		return
	}
	form := url.Values{}
	for path, value := range paper.ValuesOf(text) {
		form.Set(file+":"+path, value)
	}
	for i := 0; ctx.Err() == nil; i++ {
		form.Set(file+":name", fmt.Sprintf("Pale %d", i)) // nothing remembers what came of it
		form.Set(file+":"+designedStep, fmt.Sprintf("%.2f h", 6+0.01*float64(n*50+i%90)))
		for kind, do := range map[string]string{"designs": "compute", "designs with bands": "draw"} {
			start := time.Now()
			status, _, _, err := c.post(pieceAt, with(form, "do", do))
			y.add(kind, time.Since(start), "", status, err)
		}
	}
}

func with(form url.Values, key, value string) url.Values {
	out := maps.Clone(form)
	out[key] = []string{value}
	return out
}

// line is the figures of one kind of act.
func (y *tally) line(kind string) string {
	all := slices.Sorted(slices.Values(y.took[kind]))
	if len(all) == 0 {
		return kind + ": none"
	}
	at := func(q float64) time.Duration {
		return all[min(len(all)-1, int(q*float64(len(all))))].Round(100 * time.Microsecond)
	}
	return fmt.Sprintf("load: %-20s %6d   p50 %8s   p95 %8s   p99 %8s   most %8s", kind, len(all), at(0.5), at(0.95), at(0.99), at(1))
}

func (y *tally) quantile(kind string, q float64) time.Duration {
	all := slices.Sorted(slices.Values(y.took[kind]))
	if len(all) == 0 {
		return 0
	}
	return all[min(len(all)-1, int(q*float64(len(all))))]
}
