package web

import (
	"io"
	"strings"

	"awn/internal/malthouse"
	"awn/internal/report"
	"awn/ledger"
)

// listOperations are the lists of the record, each a page at a time.
var listOperations = []operation{
	{Method: "GET", Path: "/deliveries", ID: "deliveries", Summary: "Loads of barley that came in, the latest first.", Schema: "deliveries/1", Use: malthouse.UseLook, asked: (*Server).apiDeliveries, List: true, OfRecord: true},
	{Method: "GET", Path: "/pieces", ID: "pieces", Summary: "Pieces with how they stand, the latest first.", Schema: "pieces/1", Use: malthouse.UseLook, asked: (*Server).apiPieces, List: true, OfRecord: true},
	{Method: "GET", Path: "/lots", ID: "lots", Summary: "Lots of malt with what was found of them, the latest first.", Schema: "lots/1", Use: malthouse.UseLook, asked: (*Server).apiLots, List: true, OfRecord: true},
	{Method: "GET", Path: "/shipments", ID: "shipments", Summary: "Loads that were sent, the latest first.", Schema: "shipments/1", Use: malthouse.UseLook, asked: (*Server).apiShipments, List: true, OfRecord: true},
	{Method: "GET", Path: "/certificates", ID: "certificates", Summary: "Certificates that were issued, the latest first.", Schema: "certificates/1", Use: malthouse.UseLook, asked: (*Server).apiCertificates, List: true, OfRecord: true},
	{Method: "GET", Path: "/facts", ID: "facts", Summary: "The entries of the record as they were made, from the first on; struck ones too.", Schema: "facts/1", Use: malthouse.UseLook, asked: (*Server).apiFacts, List: true, OfRecord: true},
}

// listed is a page of a list.
func listed(next string, write func(io.Writer) error) (reply, error) {
	a, err := toldJSON(write)
	a.Next = next
	return a, err
}

func (s *Server) apiDeliveries(v visit) (reply, error) {
	all, err := s.House.Deliveries(v.Context(), v.Actor)
	return paged(s, v.URL, all, err, latest(seqIn[*ledger.Receipt]), report.DeliveriesJSON)
}

func (s *Server) apiPieces(v visit) (reply, error) {
	all, err := s.House.Pieces(v.Context(), v.Actor)
	return paged(s, v.URL, all, err, latest(func(p malthouse.PieceLine) int64 { return p.Cast.Fact.Seq }), report.PiecesJSON)
}

func (s *Server) apiLots(v visit) (reply, error) {
	all, err := s.House.Lots(v.Context(), v.Actor)
	return paged(s, v.URL, all, err, cursors[malthouse.Lot]{lotCursor, afterLot}, report.LotsJSON)
}

func (s *Server) apiShipments(v visit) (reply, error) {
	all, err := s.House.Shipments(v.Context(), v.Actor)
	return paged(s, v.URL, all, err, latest(seqIn[*ledger.Shipping]), report.ShipmentsJSON)
}

func (s *Server) apiCertificates(v visit) (reply, error) {
	all, err := s.House.Certificates(v.Context(), v.Actor)
	return paged(s, v.URL, all, err, latest(seqIn[*ledger.Certificate]), report.CertificatesJSON)
}

// seqIn is the number of an entry.
func seqIn[B ledger.Body](e malthouse.Entered[B]) int64 { return e.Fact.Seq }

// apiFacts reads no more of the record than the page, and one entry to know
// whether more follow.
func (s *Server) apiFacts(v visit) (reply, error) {
	q := v.URL.Query()
	limit, err := limitOf(q)
	from := int64(0)
	if cursor := q.Get("after"); cursor != "" && err == nil {
		from, err = seqOf(cursor)
	}
	if err != nil {
		return reply{}, err
	}
	var page []ledger.Fact
	for f, err := range s.House.Store.Read(s.House.Code).Facts(v.Context(), ledger.Query{From: from + 1, To: from + 1 + int64(limit)}) {
		if err != nil {
			return reply{}, err
		}
		page = append(page, f)
	}
	next := ""
	if len(page) > limit {
		page = page[:limit]
		next = nextOf(v.URL, seqText(page[limit-1].Seq))
	}
	return listed(next, func(w io.Writer) error { return report.FactsJSON(w, page, s.Version, next) })
}

// lotCursor is the cursor of a lot: one entry may have made several.
func lotCursor(l malthouse.Lot) string { return seqText(l.Opened) + "." + string(l.Code) }

// afterLot reports whether a lot comes behind a cursor.
func afterLot(l malthouse.Lot, cursor string) (bool, error) {
	number, code, _ := strings.Cut(cursor, ".")
	seq, err := seqOf(number)
	return l.Opened < seq || l.Opened == seq && string(l.Code) > code, err
}
