package draw

import "math"

// Map is districts where they lie, each as dark as its share is great.
type Map struct {
	ID, Title, Says string
	Head            []string // of the table: district, share
	Places          []MapPlace
}

// MapPlace is a district: the corners of its outline, or one point.
type MapPlace struct {
	Name string
	X, Y []float64 // to the east, and to the north
	// Share is 0 to 1; NaN where it is not to be shown.
	Share float64
	Word  string // beside the name
}

// Measures of a map in its own units, which it keeps when it is scaled.
const (
	mapWide    = 640.0
	mapMargin  = 50.0
	mapTall    = 900.0 // at most
	mapTint    = 0.5   // of a share of 1
	mapLinePx  = 24.0  // between the two words of a district
	mapPointPx = 26.0  // of a district that is a point
)

// Map draws the districts. East and north have one scale.
func (p Pen) Map(m Map) Picture {
	var xs, ys [][]float64
	t := Table{Head: m.Head}
	for _, place := range m.Places {
		xs, ys = append(xs, place.X), append(ys, place.Y)
		t.Rows = append(t.Rows, []string{place.Name, place.Word})
	}
	west, east := span(xs...)
	south, north := span(ys...)
	if math.IsNaN(west) || math.IsNaN(south) {
		return Picture{SVG: open(full, m.ID, m.Title, m.Says, mapMargin).close(), Table: t, Says: m.Says}
	}
	per := (mapWide - 2*mapMargin) / max(east-west, (north-south)*mapWide/mapTall, 1e-9)
	height := (north-south)*per + 2*mapMargin
	s := &sheet{id: m.ID}
	s.f(`<svg xmlns="http://www.w3.org/2000/svg" class="%s map" role="img" aria-labelledby="%s-t %s-d" viewBox="0 0 %s %s">`, full, m.ID, m.ID, px(mapWide), px(height))
	s.f(`<title id="%s-t">%s</title><desc id="%s-d">%s</desc>`, m.ID, escape(m.Title), m.ID, escape(m.Says))
	left := (mapWide - (east-west)*per) / 2
	at := func(x, y float64) point { return point{left + (x-west)*per, mapMargin + (north-y)*per} }
	for _, place := range m.Places {
		s.outline(place, at)
	}
	for _, place := range m.Places {
		s.placeWords(place, at)
	}
	return Picture{SVG: s.close(), Table: t, Says: m.Says}
}

// outline draws the shape of a district.
func (s *sheet) outline(m MapPlace, at func(x, y float64) point) {
	tint := 0.0
	if m.Share >= 0 {
		tint = mapTint * min(m.Share, 1)
	}
	if len(m.X) < 3 {
		c := at(middle(m.X), middle(m.Y))
		s.f(`<circle cx="%s" cy="%s" r="%s" class="land" fill-opacity="%.2f"/>`, px(c.x), px(c.y), px(mapPointPx), tint)
		return
	}
	ring := make([]point, len(m.X))
	for i := range m.X {
		ring[i] = at(m.X[i], m.Y[i])
	}
	s.f(`<path d="%s" class="land" fill-opacity="%.2f"/>`, trace(ring, true), tint)
}

// placeWords writes name and share of a district into its middle.
func (s *sheet) placeWords(m MapPlace, at func(x, y float64) point) {
	c := at(middle(m.X), middle(m.Y))
	s.f(`<text x="%s" y="%s" class="place mid">%s</text>`, px(c.x), px(c.y), escape(m.Name))
	s.f(`<text x="%s" y="%s" class="place mid strong">%s</text>`, px(c.x), px(c.y+mapLinePx), escape(m.Word))
}

func middle(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v / float64(len(x))
	}
	return sum
}
