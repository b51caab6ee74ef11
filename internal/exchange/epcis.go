package exchange

import (
	"encoding/json"
	"io"

	"time"
)

// Partner is how a house names itself and its things to those it trades with.
type Partner struct {
	Base      string            // begin of the names of its own: "https://id.example/hallow-sound/"
	GTIN      map[string]string // of each kind of thing ("delivery", "lot"), if it has one: such a lot is then named by GS1 Digital Link
	CreatedMS int64             // when the document is made
}

// epcisContext is where the words of the document are explained.
const epcisContext = "https://ref.gs1.org/standards/epcis/2.0.0/epcis-context.jsonld"

// EPCIS writes the events of a record that a trading partner can follow, as a
// document of GS1 EPCIS 2.0 in JSON-LD, and says how many. A struck fact gives
// its event once more, declared in error.
//
// Receipts, samples, analyses, moves, pieces begun and dressed, blends, holds,
// releases, shipments, returns and counts give events; what happens to a piece
// in between, and readings, do not.
func EPCIS(w io.Writer, facts Facts, p Partner) (n int, err error) {
	head := `{"@context":["` + epcisContext + `"],"type":"EPCISDocument","schemaVersion":"2.0","creationDate":"` + inUTC(p.CreatedMS) + `","epcisBody":{"eventList":[`
	if _, err := io.WriteString(w, head); err != nil {
		return 0, err
	}
	all, err := tell(facts)
	if err != nil {
		return 0, err
	}
	wrong := map[string]*event{} // by the id of a fact that is struck later
	for t, err := range all {
		if err != nil {
			return n, err
		}
		e, err := p.event(t)
		if err != nil {
			return n, err
		}
		if t.by > 0 && e != nil {
			wrong[t.ID] = e
		}
		if was := wrong[string(t.Strikes)]; was != nil {
			e = was
			e.Error = &errorDeclaration{inUTC(t.At), "incorrect_data"}
		}
		if e == nil {
			continue
		}
		if err := writeEvent(w, n, e); err != nil {
			return n, err
		}
		n++
	}
	_, err = io.WriteString(w, "\n]}}\n")
	return n, err
}

func writeEvent(w io.Writer, n int, e *event) error {
	text, err := json.Marshal(e)
	if err != nil {
		return err
	}
	before := ",\n"
	if n == 0 {
		before = "\n"
	}
	_, err = io.WriteString(w, before+string(text))
	return err
}

func inUTC(ms int64) string { return time.UnixMilli(ms).UTC().Format("2006-01-02T15:04:05.000Z") }

// event is one event of EPCIS.
type event struct {
	Type        string              `json:"type"`
	ID          string              `json:"eventID"`
	Time        string              `json:"eventTime"`
	Offset      string              `json:"eventTimeZoneOffset"`
	Error       *errorDeclaration   `json:"errorDeclaration,omitempty"`
	EPCs        []string            `json:"epcList,omitempty"`
	Action      string              `json:"action,omitempty"`
	Step        string              `json:"bizStep"`
	Disposition string              `json:"disposition,omitempty"`
	Persistent  map[string][]string `json:"persistentDisposition,omitempty"`
	Point       *where              `json:"readPoint,omitempty"`
	Location    *where              `json:"bizLocation,omitempty"`
	Quantities  []quantity          `json:"quantityList,omitempty"`
	Inputs      []quantity          `json:"inputQuantityList,omitempty"`
	Outputs     []quantity          `json:"outputQuantityList,omitempty"`
	Made        string              `json:"transformationID,omitempty"`
	Papers      []paperOf           `json:"bizTransactionList,omitempty"`
	Sources     []source            `json:"sourceList,omitempty"`
	Goals       []goal              `json:"destinationList,omitempty"`
}

type errorDeclaration struct {
	Time   string `json:"declarationTime"`
	Reason string `json:"reason"`
}

type where struct {
	ID string `json:"id"`
}

type quantity struct {
	Class string   `json:"epcClass"`
	Kg    *float64 `json:"quantity,omitempty"`
	Unit  string   `json:"uom,omitempty"`
}

type paperOf struct {
	Type string `json:"type"`
	Name string `json:"bizTransaction"`
}

type source struct {
	Type string `json:"type"`
	Name string `json:"source"`
}

type goal struct {
	Type string `json:"type"`
	Name string `json:"destination"`
}
