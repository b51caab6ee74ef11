package web

import (
	"bytes"
	"encoding/json"
	"io"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"time"

	"awn/internal/malthouse"
	"awn/internal/report"
	"awn/ledger"
)

// recordOperations are what a program may ask of a house with a record, and
// enter into it: the same slips as on the pages.
var recordOperations = slices.Concat([]operation{
	{Method: "GET", Path: "/stock", ID: "stock", Summary: "What the house holds; as “awn stock --json”.", Schema: "stock/1", Use: malthouse.UseLook, asked: (*Server).apiStock},
	{Method: "GET", Path: "/deliveries", ID: "deliveries", Summary: "Loads of barley that came in, the latest first.", Schema: "deliveries/1", Use: malthouse.UseLook, asked: (*Server).apiDeliveries},
	{Method: "GET", Path: "/pieces", ID: "pieces", Summary: "Every piece with how it stands.", Schema: "pieces/1", Use: malthouse.UseLook, asked: (*Server).apiPieces},
	{
		Method: "GET", Path: "/pieces/{code}", ID: "pieceRecord", Summary: "All that is known of a piece; as “awn piece --json”.", Schema: "piece-record/1", Use: malthouse.UseLook, asked: (*Server).apiPieceRecord,
		Ask: []asking{{"code", "path", "Code of the piece.", true}},
	},
	{
		Method: "GET", Path: weeksAt, ID: "weeks", Summary: "Pieces on their way through the vessels, double bookings, orders; as “awn weeks --json”.", Schema: "weeks/1", Use: malthouse.UseLook, asked: (*Server).apiWeeks,
		Ask: []asking{{"from", "query", "First day, as in 2026-01-01.", false}, {"weeks", "query", "How many weeks.", false}},
	},
	{
		Method: "GET", Path: "/trace", ID: "trace", Summary: "Where something came from and where it went; as “awn trace --json”.", Schema: "trace/1", Use: malthouse.UseLook, asked: (*Server).apiTrace,
		Ask: []asking{{"of", "query", "Code of a delivery, a silo, a piece, a lot or a shipment.", true}},
	},
	{
		Method: "GET", Path: "/balance", ID: "balance", Summary: "What came in, went out and was lost; as “awn balance --json”.", Schema: "balance/1", Use: malthouse.UseLook, asked: (*Server).apiBalance,
		Ask: []asking{{"from", "query", "First day, as in 2026-01-01.", true}, {"to", "query", "Last day.", true}},
	},
}, seriesOperations, entries())

// entries are the operations that enter something, one for each slip.
func entries() (out []operation) {
	for _, name := range slices.Sorted(maps.Keys(slips)) {
		out = append(out, operation{
			Method: "POST", Path: slipsAt + name, ID: "enter-" + name, Summary: "Enter what “awn " + name + "” enters.", Schema: "entry/1", Use: slips[name]().Use(), slip: name,
			asked: func(s *Server, v visit) ([]byte, error) { return s.apiEnter(v, name) },
		})
	}
	return out
}

// toldJSON writes an answer into memory.
func toldJSON(write func(io.Writer) error) ([]byte, error) {
	var b bytes.Buffer
	err := write(&b)
	return b.Bytes(), err
}

func (s *Server) apiStock(v visit) ([]byte, error) {
	held, err := s.House.Stock(v.Context(), v.Actor)
	if err != nil {
		return nil, err
	}
	return toldJSON(func(w io.Writer) error { return report.StockJSON(w, held, s.Version) })
}

func (s *Server) apiDeliveries(v visit) ([]byte, error) {
	all, err := s.House.Deliveries(v.Context(), v.Actor)
	if err != nil {
		return nil, err
	}
	return toldJSON(func(w io.Writer) error { return report.DeliveriesJSON(w, all, s.Version) })
}

func (s *Server) apiPieces(v visit) ([]byte, error) {
	all, err := s.House.Pieces(v.Context(), v.Actor)
	if err != nil {
		return nil, err
	}
	return toldJSON(func(w io.Writer) error { return report.PiecesJSON(w, all, s.Version) })
}

func (s *Server) apiPieceRecord(v visit) ([]byte, error) {
	p, err := s.House.Piece(v.Context(), v.Actor, ledger.Code(v.PathValue("code")))
	if err != nil {
		return nil, err
	}
	return toldJSON(func(w io.Writer) error { return report.PieceJSON(w, p, s.Version) })
}

func (s *Server) apiTrace(v visit) ([]byte, error) {
	of, err := malthouse.Find(v.Context(), s.House.Store.Read(s.House.Code), v.FormValue("of"))
	if err != nil {
		return nil, err
	}
	t, err := s.House.Trace(v.Context(), v.Actor, of, ledger.AsEntered)
	if err != nil {
		return nil, err
	}
	return toldJSON(func(w io.Writer) error { return report.TraceJSON(w, t, s.Version) })
}

func (s *Server) apiBalance(v visit) ([]byte, error) {
	var days [2]time.Time
	for i, name := range []string{"from", "to"} {
		day, err := time.ParseInLocation(time.DateOnly, v.FormValue(name), s.House.Zone)
		if err != nil {
			return nil, refuse(http.StatusUnprocessableEntity, "web.form.unreadable", name+" is a day as in 2026-01-31")
		}
		days[i] = day
	}
	b, err := s.House.Balance(v.Context(), v.Actor, days[0], days[1].AddDate(0, 0, 1))
	if err != nil {
		return nil, err
	}
	return toldJSON(func(w io.Writer) error { return report.BalanceJSON(w, b, s.Version) })
}

// apiEnter enters a slip that comes as JSON: an object of texts, lists of texts
// and truths.
func (s *Server) apiEnter(v visit, name string) ([]byte, error) {
	data, err := io.ReadAll(v.Body)
	if err != nil {
		return nil, unreadable(err)
	}
	typed, err := typedOf(data)
	if err != nil {
		return nil, err
	}
	done, err := s.take(v, slips[name](), typed)
	if err != nil {
		return nil, err
	}
	return written(report.EntryJSON(done, v.Units))
}

// typedOf are the fields of a slip as a form would send them.
func typedOf(data []byte) (url.Values, error) {
	var fields map[string]any
	if err := json.Unmarshal(data, &fields); err != nil {
		return nil, unreadable(err)
	}
	typed := url.Values{}
	for name, value := range fields {
		texts, several := value.([]any)
		if !several {
			texts = []any{value}
		}
		for _, one := range texts {
			switch x := one.(type) {
			case string:
				typed.Add(name, x)
			case bool:
				typed.Add(name, strconv.FormatBool(x))
			case float64:
				typed.Add(name, strconv.FormatFloat(x, 'f', -1, 64))
			default:
				return nil, refuse(http.StatusBadRequest, "web.form.unreadable", name+" is neither a text nor a list of texts")
			}
		}
	}
	return typed, nil
}
