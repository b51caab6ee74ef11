package web

import (
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
	"awn/internal/slip"
	"awn/ledger"
)

// recordOperations are what a program may ask of a house with a record, and
// enter into it: the same slips as on the pages.
var recordOperations = slices.Concat(listOperations, []operation{
	{Method: "GET", Path: "/stock", ID: "stock", Summary: "What the house holds; as “awn stock --json”.", Schema: "stock/1", Use: malthouse.UseLook, asked: (*Server).apiStock, OfRecord: true},
	{
		Method: "GET", Path: "/pieces/{code}", ID: "pieceRecord", Summary: "All that is known of a piece; as “awn piece --json”.", Schema: "piece-record/1", Use: malthouse.UseLook, asked: (*Server).apiPieceRecord, OfRecord: true,
		Ask: []asking{{"code", "path", "Code of the piece.", true}},
	},
	{
		Method: "GET", Path: weeksAt, ID: "weeks", Summary: "Pieces on their way through the vessels, double bookings, orders; as “awn weeks --json”.", Schema: "weeks/1", Use: malthouse.UseLook, asked: (*Server).apiWeeks,
		Ask: []asking{{"from", "query", "First day, as in 2026-01-01.", false}, {"weeks", "query", "How many weeks.", false}},
	},
	{
		Method: "GET", Path: "/pieces/{code}/assurance", ID: "assurance", Summary: "The control points of a piece, with what was read and decided; as “awn assurance --json”.", Schema: "assurance/1", Use: malthouse.UseLook, asked: (*Server).apiAssurance,
		Ask: []asking{{"code", "path", "Code of the piece.", true}},
	},
	{
		Method: "GET", Path: "/things/{thing}", ID: "thing", Summary: "What the record says of one thing.", Schema: "thing/1", Use: malthouse.UseLook, asked: (*Server).apiThing, OfRecord: true,
		Ask: []asking{{"thing", "path", "A delivery, a silo, a piece, a lot, a shipment: its code, or with its kind, as in silo:B7.", true}},
	},
	{
		Method: "GET", Path: "/certificates/{number}", ID: "certificate", Summary: "A certificate as it was signed.", Schema: "", Use: malthouse.UseLook, asked: (*Server).apiCertificate,
		Ask: []asking{{"number", "path", "Number of the certificate.", true}},
	},
	{
		Method: "GET", Path: "/trace", ID: "trace", Summary: "Where something came from and where it went; as “awn trace --json”.", Schema: "trace/1", Use: malthouse.UseLook, asked: (*Server).apiTrace, OfRecord: true,
		Ask: []asking{{"of", "query", "Code of a delivery, a silo, a piece, a lot or a shipment.", true}},
	},
	{
		Method: "GET", Path: "/balance", ID: "balance", Summary: "What came in, went out and was lost; as “awn balance --json”.", Schema: "balance/1", Use: malthouse.UseLook, asked: (*Server).apiBalance, OfRecord: true,
		Ask: []asking{{"from", "query", "First day, as in 2026-01-01.", true}, {"to", "query", "Last day.", true}},
	},
	{Method: "GET", Path: "/due", ID: "due", Summary: "What comes due within a day, most overdue first; as “awn due --json”.", Schema: "due/1", Use: malthouse.UseLook, asked: (*Server).apiDue},
	{Method: "GET", Path: "/handover", ID: "handover", Summary: "What one shift hands to the next.", Schema: "handover/1", Use: malthouse.UseLook, asked: (*Server).apiHandover},
	{
		Method: "GET", Path: "/complaint", ID: "complaint", Summary: "What the record holds of a lot that is complained of.", Schema: "complaint/1", Use: malthouse.UseLook, asked: (*Server).apiComplaint, OfRecord: true,
		Ask: []asking{{"lot", "query", "Code of the lot.", true}, {"claim", "query", "A figure that is complained of, as in “moisture 5.2 % wb”; several times if several are.", true}},
	},
}, setOperations, seriesOperations, entries())

// entries are the operations that enter something, one for each slip.
func entries() (out []operation) {
	for _, name := range slices.Sorted(maps.Keys(slips)) {
		out = append(out, operation{
			Method: "POST", Path: slipsAt + name, ID: "enter-" + name, Summary: "Enter what “awn " + name + "” enters.", Schema: "entry/1", Use: slips[name]().Use(), slip: name,
			Takes: []string{kindJSON}, asked: func(s *Server, v visit) (reply, error) { return s.apiEnter(v, name) },
		})
	}
	return out
}

func (s *Server) apiStock(v visit) (reply, error) {
	held, err := s.House.Stock(v.Context(), v.Actor)
	if err != nil {
		return reply{}, err
	}
	return toldJSON(func(w io.Writer) error { return report.StockJSON(w, held, s.Version) })
}

func (s *Server) apiPieceRecord(v visit) (reply, error) {
	p, err := s.House.Piece(v.Context(), v.Actor, ledger.Code(v.PathValue("code")))
	if err != nil {
		return reply{}, err
	}
	return toldJSON(func(w io.Writer) error { return report.PieceJSON(w, p, s.Version) })
}

func (s *Server) apiAssurance(v visit) (reply, error) {
	_, points, found, err := slip.HousePoints(v.Context(), s.House, v.Actor)
	if err != nil {
		return reply{}, err
	}
	if !found {
		return reply{}, refuse(http.StatusNotFound, "web.document.none", malthouse.ControlPoints)
	}
	a, err := s.House.Assure(v.Context(), v.Actor, ledger.Code(v.PathValue("code")), points)
	if err != nil {
		return reply{}, err
	}
	return toldJSON(func(w io.Writer) error { return report.AssuranceJSON(w, []malthouse.Assurance{a}, s.Version) })
}

func (s *Server) apiThing(v visit) (reply, error) {
	ref, err := malthouse.Find(v.Context(), s.House.Store.Read(s.House.Code), v.PathValue("thing"))
	if err != nil {
		return reply{}, err
	}
	x, err := s.House.Thing(v.Context(), v.Actor, ref)
	if err != nil {
		return reply{}, err
	}
	return toldJSON(func(w io.Writer) error { return report.ThingJSON(w, x, s.Version) })
}

// apiCertificate is the file that was signed, byte for byte.
func (s *Server) apiCertificate(v visit) (reply, error) {
	c, err := s.House.Issued(v.Context(), v.Actor, ledger.Code(v.PathValue("number")))
	return reply{Body: c.Signed}, err
}

func (s *Server) apiTrace(v visit) (reply, error) {
	of, err := malthouse.Find(v.Context(), s.House.Store.Read(s.House.Code), v.FormValue("of"))
	if err != nil {
		return reply{}, err
	}
	t, err := s.House.Trace(v.Context(), v.Actor, of, ledger.AsEntered)
	if err != nil {
		return reply{}, err
	}
	return toldJSON(func(w io.Writer) error { return report.TraceJSON(w, t, s.Version) })
}

func (s *Server) apiBalance(v visit) (reply, error) {
	var days [2]time.Time
	for i, name := range []string{"from", "to"} {
		day, err := time.ParseInLocation(time.DateOnly, v.FormValue(name), s.House.Zone)
		if err != nil {
			return reply{}, refuse(http.StatusUnprocessableEntity, "web.form.unreadable", name+" is a day as in 2026-01-31")
		}
		days[i] = day
	}
	b, err := s.House.Balance(v.Context(), v.Actor, days[0], days[1].AddDate(0, 0, 1))
	if err != nil {
		return reply{}, err
	}
	return toldJSON(func(w io.Writer) error { return report.BalanceJSON(w, b, s.Version) })
}

func (s *Server) apiDue(v visit) (reply, error) {
	all, err := s.House.Due(v.Context(), v.Actor, 24*time.Hour)
	if err != nil {
		return reply{}, err
	}
	return toldJSON(func(w io.Writer) error { return report.DueJSON(w, all, s.Version) })
}

func (s *Server) apiHandover(v visit) (reply, error) {
	x, err := s.House.Shift(v.Context(), v.Actor, s.House.Clock().Add(-shiftLasts))
	if err != nil {
		return reply{}, err
	}
	return toldJSON(func(w io.Writer) error { return report.ShiftJSON(w, x, s.Version) })
}

func (s *Server) apiComplaint(v visit) (reply, error) {
	q := v.URL.Query()
	texts := filledIn(q["claim"])
	if q.Get("lot") == "" || len(texts) == 0 {
		return reply{}, refuse(http.StatusUnprocessableEntity, "web.form.unreadable", "lot and claim must be given")
	}
	claims, err := slip.Figures("claim", texts, "")
	if err != nil {
		return reply{}, err
	}
	c, err := s.House.Complain(v.Context(), v.Actor, slip.Bare(q.Get("lot")), claims)
	if err != nil {
		return reply{}, err
	}
	return toldJSON(func(w io.Writer) error { return report.ComplaintJSON(w, c, s.Version) })
}

// apiEnter enters a slip that comes as JSON: an object of texts, lists of texts
// and truths. The same id with the same slip is answered with what was entered.
func (s *Server) apiEnter(v visit, name string) (reply, error) {
	data, err := io.ReadAll(v.Body)
	if err != nil {
		return reply{}, unreadable(err)
	}
	typed, err := typedOf(data)
	if err != nil {
		return reply{}, err
	}
	done, err := s.take(v, slips[name](), typed)
	if err != nil {
		return reply{}, err
	}
	return writtenReply(report.EntryJSON(done, v.Units))
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
