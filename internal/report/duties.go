package report

import (
	"encoding/hex"
	"fmt"
	"io"
	"time"

	"awn/internal/expect"
	"awn/internal/house"
	"awn/internal/malthouse"
	"awn/internal/sheet"
	"awn/internal/words"
	"awn/ledger"
)

// Sheets makes documents of the record for a reader.
type Sheets struct {
	House   string // its name
	Zone    *time.Location
	Units   words.Units
	Version house.Version
	At      time.Time
}

// leaf is an empty document.
func (s Sheets) leaf(title, number string) Leaf {
	return Leaf{Title: title, Number: number, Foot: join([]string{s.House, title, number}), Stamp: stamp(s.Version, s.Units), At: s.At, Units: s.Units}
}

func (s Sheets) text() RecordText { return RecordText{Units: s.Units} }

func (s Sheets) moment(at time.Time) string {
	at = at.In(s.Zone)
	_, offset := at.Zone()
	return s.Units.Moment(at.UnixMilli(), offset/60)
}

// about is a thing, or the house.
func (s Sheets) about(of ledger.Ref) string {
	if of == "" {
		return s.Units.Say("due.house")
	}
	return thing(string(of), s.Units)
}

// late is how a reminder stands.
func (s Sheets) late(r malthouse.Reminder) string {
	if r.Late > 0 {
		return s.Units.Say("due.late", "span", s.Units.Span(r.Late.Hours()))
	}
	return s.Units.Say("due.in", "span", s.Units.Span(-r.Late.Hours()))
}

// dueRows are reminders as rows.
func (s Sheets) dueRows(all []malthouse.Reminder) (rows [][]string) {
	for _, r := range all {
		rows = append(rows, []string{s.Units.Say("due." + r.Key), s.about(r.Thing), s.late(r), s.Units.Say("role." + string(r.For))})
	}
	return rows
}

// Due is what comes due, as a document.
func (s Sheets) Due(all []malthouse.Reminder) Leaf {
	u := s.Units
	l := s.leaf(u.Say("due.title"), "")
	late := 0
	for _, r := range all {
		if r.Late > 0 {
			late++
		}
	}
	l.First = []string{u.Say("due.count", "late", u.Number(float64(late), 0), "soon", u.Number(float64(len(all)-late), 0))}
	if len(all) > 0 {
		l.Parts = []part{{title: u.Say("due.list"), head: s.dueHead(), align: "llll", rows: s.dueRows(all)}}
	}
	l.Proof = []string{u.Say("due.usual")}
	return l
}

func (s Sheets) dueHead() []string {
	u := s.Units
	return []string{u.Say("room.what"), u.Say("due.thing"), u.Say("due.stands"), u.Say("due.for")}
}

// DueJSON writes reminders for programs.
func DueJSON(w io.Writer, all []malthouse.Reminder, v house.Version) error {
	return recordJSON(w, "due/1", v, object{"due": each(all, dueObject)})
}

func dueObject(r malthouse.Reminder) object {
	return object{"key": r.Key, "role": r.For, "due_ms": r.Due.UnixMilli(), "late_h": r.Late.Hours(), "every_d": r.Days}.text("thing", string(r.Thing))
}

// heldRows are places with what they hold.
func (s Sheets) heldRows(all []malthouse.Held) (rows [][]string) {
	for _, h := range all {
		rows = append(rows, []string{thing(string(h.Account), s.Units), s.text().kg(fresh(h.Balance)), s.text().aside(h)})
	}
	return rows
}

// pieceRows are pieces under way.
func (s Sheets) pieceRows(all []malthouse.PieceLine) (rows [][]string) {
	for _, p := range all {
		rows = append(rows, []string{string(p.Code), s.Units.Say("state." + string(p.State)), s.moment(time.UnixMilli(p.Cast.Fact.At)), p.Cast.Body.Vessel})
	}
	return rows
}

// HeadText is the end of a record as it is printed and checked.
func HeadText(h ledger.Head) string {
	return fmt.Sprintf("%d:%s", h.Seq, hex.EncodeToString(h.Hash[:]))
}

// Day is a day as it is closed, as a document.
func (s Sheets) Day(d malthouse.Day) Leaf {
	u := s.Units
	l := s.leaf(u.Say("close.title"), d.Date)
	l.First = []string{u.Say("close.entries", "count", u.Number(float64(d.Entries), 0))}
	l.Parts = []part{{title: u.Say("room.places"), head: []string{u.Say("room.place"), u.Say("room.holds"), ""}, align: "lrl", rows: s.heldRows(d.Stock.Places)}}
	var says []string
	for _, x := range d.Stock.Unexplained {
		if x.Alarm() {
			says = append(says, Say(x.Said(), u))
		}
	}
	for _, f := range d.Stock.Shaken {
		says = append(says, Say(malthouse.Shaken(f), u))
	}
	if len(says) > 0 {
		l.Parts = append(l.Parts, part{title: u.Say("close.out-of-line"), says: says})
	}
	if len(d.Pieces) > 0 {
		l.Parts = append(l.Parts, part{title: u.Say("close.pieces"), head: s.pieceHead(), align: "llll", rows: s.pieceRows(d.Pieces)})
	}
	if len(d.Due) > 0 {
		l.Parts = append(l.Parts, part{title: u.Say("due.list"), head: s.dueHead(), align: "llll", rows: s.dueRows(d.Due)})
	}
	l.Proof = []string{u.Say("close.head", "head", HeadText(d.Stock.Head))}
	return l
}

func (s Sheets) pieceHead() []string {
	u := s.Units
	return []string{u.Say("room.piece"), u.Say("room.stands"), u.Say("close.since"), u.Say("room.vessel")}
}

// MostAhead is how many acts of each piece are told ahead.
const MostAhead = 3

// aheadRows are the acts that programmes ask for.
func (s Sheets) aheadRows(all []expect.Coming) (rows [][]string) {
	for _, c := range all {
		rows = append(rows, []string{s.moment(c.At), string(c.Piece), StepName(c.Next, s.Units), Overdue(c.Next, s.Units)})
	}
	return rows
}

// StepName is what a programme asks for, as a line begins with it.
func StepName(n expect.Next, u words.Units) string { return words.Capital(u.Step(n.Step)) }

// Overdue is by how much an act is late; nothing while there is time.
func Overdue(n expect.Next, u words.Units) string {
	if n.Over < time.Minute {
		return ""
	}
	return u.Say("due.late", "span", u.Span(n.Over.Hours()))
}

// How many rows of each part of a handover stand on its one page.
const (
	mostShiftPieces = 8
	mostShiftDue    = 8
	mostShiftDid    = 14
)

// Shift is a handover on one page. What has no room on it is counted.
func (s Sheets) Shift(x malthouse.Shift, ahead []expect.Coming) Leaf {
	u := s.Units
	l := s.leaf(u.Say("shift.title"), "")
	l.About = [][2]string{{u.Say("shift.since"), s.moment(x.Since)}, {u.Say("shift.until"), s.moment(s.At)}}
	l.First = x.Notes
	cut := func(rows [][]string, most int) ([][]string, []string) {
		if len(rows) <= most {
			return rows, nil
		}
		return rows[:most], []string{u.Say("shift.more", "count", u.Number(float64(len(rows)-most), 0))}
	}
	add := func(title string, head []string, align string, rows [][]string, most int) {
		if rows, says := cut(rows, most); len(rows) > 0 {
			l.Parts = append(l.Parts, part{title: u.Say(title), head: head, align: sheet.Align(align), rows: rows, says: says})
		}
	}
	add("close.pieces", s.pieceHead(), "llll", s.pieceRows(x.Pieces), mostShiftPieces)
	add("floor.next", []string{u.Say("room.when"), u.Say("room.piece"), u.Say("room.what"), ""}, "llll", s.aheadRows(ahead), mostShiftPieces)
	var out [][]string
	for _, h := range x.Held {
		out = append(out, []string{thing(string(h.Account), u), u.Say("leave.on-hold")})
	}
	add("close.out-of-line", []string{u.Say("room.place"), ""}, "ll", out, 4)
	for _, a := range x.Alarms[:min(2, len(x.Alarms))] {
		l.First = append(l.First, Say(a.Said(), u))
	}
	add("due.list", s.dueHead(), "llll", s.dueRows(x.Due), mostShiftDue)
	var did [][]string
	for _, t := range x.Did {
		did = append(did, []string{s.moment(time.UnixMilli(t.Fact.At)), u.Say("happened." + string(t.Fact.Kind)), short(Detail(t.Body, u), 60), t.Who})
	}
	add("shift.did", []string{u.Say("room.when"), u.Say("room.what"), "", u.Say("room.who")}, "llll", did, mostShiftDid)
	l.Proof = []string{u.Say("close.head", "head", HeadText(x.Head)), u.Say("floor.mind")}
	l.Signatures = []string{u.Say("shift.gives"), u.Say("shift.takes")}
	return l
}
