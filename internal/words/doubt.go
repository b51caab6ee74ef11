package words

import (
	"math"
	"strings"

	"awn/odds"
)

// Doubt writes a figure with its band: "44.2 ± 0.5 % wb", or both ends where
// they lie unevenly about it. The unit follows from the name as in Figure.
func (u Units) Doubt(name string, v odds.Value) string {
	if !v.Known() || !v.Banded() || v.Low == v.High {
		return Figure(name, v.Mid, u)
	}
	m := measureOf(name)
	mid, low, high := m.in(v.Mid, u), m.in(v.Low, u), m.in(v.High, u)
	n := m.decimalsIn(u)
	down, up := mid-low, high-mid
	symbol := strings.TrimRight("\u00a0"+Symbol(name, u), "\u00a0")
	if math.Abs(up-down) > unevenShare*(up+down) {
		return u.Number(mid, n) + "\u00a0(" + u.Number(low, n) + "–" + u.Number(high, n) + ")" + symbol
	}
	return u.Number(mid, n) + "\u00a0±\u00a0" + u.Number((up+down)/2, n) + symbol
}

// unevenShare is the part of a band by which its sides may differ and still
// be written as one "±".
const unevenShare = 0.15
