package paper

import (
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"path"

	"awn/course"
	"awn/kiln"
	"awn/plant"
	"awn/programme"
	"awn/unit"
)

// Input is one file that went into a piece.
type Input struct {
	Kind   string // "lot/1"
	File   string
	SHA256 string // in hexadecimal
	Text   []byte
}

// Load reads a piece and all documents that it names, from files beside or
// below it. The faults of all of them are reported together; the piece is only
// of use if there are none.
func Load(files fs.FS, name string) (course.Piece, []Input, Faults) {
	data, err := fs.ReadFile(files, name)
	if err != nil {
		return course.Piece{}, nil, Faults{{Code: "document.file.missing", File: name, Line: 1, Column: 1, Got: name}}
	}
	return LoadPiece(files, name, data)
}

// LoadPiece is Load for a piece whose text is already at hand; name says where
// it would lie.
func LoadPiece(files fs.FS, name string, data []byte) (course.Piece, []Input, Faults) {
	l := &loader{files: files, piece: name}
	l.input(Piece{}, name, data)
	doc, r := read[Piece](name, data)
	l.faults = r.faults.sorted()
	if len(l.faults) > 0 {
		return course.Piece{}, nil, l.faults
	}
	lot := follow(l, r, "lot", &doc.Lot)
	house := follow(l, r, "plant", &doc.Plant)
	prog := follow(l, r, "programme", &doc.Programme)
	piece := course.Piece{
		Code: doc.Code, CastKg: doc.Cast.In("kg"),
		StartMs: doc.Start.UnixMilli(), Level: doc.Bed == "level",
	}
	_, offsetS := doc.Start.Zone()
	piece.OffsetMin = offsetS / 60
	if d := doc.LowerDeck; d != nil {
		piece.LowerPiece = &kiln.LowerPiece{MoistureWB: d.Moisture.In("% wb") / 100, TempC: d.Temperature.In("°C")}
	}
	if spec := follow(l, r, "specification", doc.Specification); spec != nil {
		piece.Specification = spec.Specification()
	}
	if len(l.faults) > 0 {
		return course.Piece{}, nil, l.faults
	}
	piece.Lot, piece.House, piece.Programme = lot.Lot(), house.House(), prog.Programme()
	l.vessels(r, &piece, doc)
	return piece, l.inputs, l.faults
}

// loader gathers what a piece names.
type loader struct {
	files  fs.FS
	piece  string
	inputs []Input
	faults Faults
}

func (l *loader) input(doc Document, name string, data []byte) {
	sum := sha256.Sum256(data)
	l.inputs = append(l.inputs, Input{doc.Kind(), name, hex.EncodeToString(sum[:]), data})
}

// follow reads the document behind a link; nil if there is none.
func follow[T Document](l *loader, r *reader, key string, link *Link[T]) *T {
	switch {
	case link == nil:
		return nil
	case link.Inline != nil:
		return link.Inline
	}
	refuse := func(code string) {
		at := &reader{file: r.file, text: r.text}
		at.fault(r.places[key], key, Fault{Code: code, Got: link.File})
		l.faults = append(l.faults, at.faults...)
	}
	name := path.Join(path.Dir(l.piece), link.File)
	if path.IsAbs(link.File) || !fs.ValidPath(name) {
		refuse("document.file.name")
		return nil
	}
	data, err := fs.ReadFile(l.files, name)
	if err != nil {
		refuse("document.file.missing")
		return nil
	}
	doc, faults := Read[T](name, data)
	l.input(doc, name, data)
	l.faults = append(l.faults, faults...)
	return &doc
}

// vessels finds the vessels by name, and what lies on their floor.
func (l *loader) vessels(r *reader, piece *course.Piece, doc Piece) {
	names := Vessels{}
	if doc.Vessels != nil {
		names = *doc.Vessels
	}
	h := &piece.House
	piece.Steep = pick(l, r, "vessels.steep", names.Steep, h.Steeps, func(v plant.Steep) string { return v.Name })
	piece.Germinator = pick(l, r, "vessels.germinator", names.Germinator, h.Germinators, func(v plant.Germinator) string { return v.Name })
	piece.Kiln = pick(l, r, "vessels.kiln", names.Kiln, h.Kilns, func(v plant.Kiln) string { return v.Name })
	if g, k := h.Germinators[piece.Germinator], h.Kilns[piece.Kiln]; doc.Begin == nil && g.Kind == plant.Combined && g.AreaM2 != k.AreaM2 {
		one := &reader{file: r.file, text: r.text}
		one.fault(r.places["vessels.kiln"], "vessels.kiln", Fault{Code: "piece.vessel.combined", Got: k.Name, Allowed: []string{g.Name}})
		l.faults = append(l.faults, one.faults...)
	}
	if k := h.Kilns[piece.Kiln]; k.Decks != nil {
		for _, s := range piece.Programme.Kiln {
			if s.Until.Reading != programme.None {
				one := &reader{file: r.file, text: r.text}
				one.fault(r.places["programme"], "programme", Fault{Code: "piece.kiln.until-on-decks", Got: k.Name})
				l.faults = append(l.faults, one.faults...)
				break
			}
		}
	}
	if doc.Begin != nil {
		area := h.Germinators[piece.Germinator].AreaM2
		if doc.Begin.Stage == "kiln" {
			area = h.Kilns[piece.Kiln].AreaM2
		}
		piece.Begin = doc.Begin.begin(area)
	}
}

// pick is the index of the vessel of that name, the first if none is named.
func pick[V any](l *loader, r *reader, at, name string, vessels []V, nameOf func(V) string) int {
	if name == "" {
		return 0
	}
	var all []string
	for i, v := range vessels {
		if nameOf(v) == name {
			return i
		}
		all = append(all, nameOf(v))
	}
	one := &reader{file: r.file, text: r.text}
	one.fault(r.places[at], at, Fault{Code: "piece.vessel.unknown", Got: name, Allowed: all, Nearest: unit.Nearest(name, all)})
	l.faults = append(l.faults, one.faults...)
	return 0
}
