package malthouse

import (
	"context"
	"slices"
	"strconv"
	"strings"
	"time"

	"awn/ledger"
)

// harvested are the columns of a table of loads: what was found of them, with
// the unit of the column and what a figure of the record is multiplied by.
var harvested = []struct {
	quantity ledger.Quantity
	header   string
	by       float64
}{
	{"moisture_wb", "moisture [% wb]", 100}, {"protein_dm", "protein [% dm]", 100}, {"don_mg_kg_asis", "don [mg/kg]", 1},
	{"germination_energy", "germination_4ml", 100}, {"capacity", "capacity", 100},
	{"test_weight_kg_hl", "test_weight [kg/hL]", 1}, {"falling_number_s", "falling_number [s]", 1}, {"sprouted", "sprouted [%]", 100}, {"skinned", "skinned [%]", 100},
}

// Harvest is the loads of barley that came in as a table of samples of a
// harvest: each stands for its tonnes, its grower for a farm, the place of its
// field for a district. Loads without a variety or a grower say nothing of a
// harvest and are counted only.
func (h *House) Harvest(ctx context.Context, a Actor) (rows [][]string, left int, err error) {
	all, err := h.Deliveries(ctx, a)
	if err != nil {
		return nil, 0, err
	}
	r := h.Store.Read(h.Code)
	rows = [][]string{{"season", "district", "variety", "farm", "tonnes"}}
	for _, q := range harvested {
		rows[0] = append(rows[0], q.header)
	}
	for _, d := range all {
		b := d.Body
		if b.Grower == "" || b.Variety == "" || b.Amount.FreshKg <= 0 {
			left++
			continue
		}
		found, err := r.Results(ctx, ledger.To(ledger.DeliveryKind, b.Lot))
		if err != nil {
			return nil, 0, err
		}
		season := int(b.Crop)
		if season == 0 {
			season = time.UnixMilli(d.Fact.At).In(h.Zone).Year()
		}
		row := []string{strconv.Itoa(season), district(b.Grown), b.Variety, b.Grower, strconv.FormatFloat(kg(b.Amount.FreshKg)/1000, 'f', -1, 64)}
		for _, q := range harvested {
			text := ""
			for _, f := range found {
				if f.Quantity == q.quantity { // the last stands
					text = strconv.FormatFloat(f.Value*q.by, 'g', 12, 64)
					if f.Less {
						text = "<" + text
					}
				}
			}
			if q.quantity == "moisture_wb" && text == "" && b.Amount.MoistureWB != nil {
				text = strconv.FormatFloat(float64(*b.Amount.MoistureWB)*q.by, 'g', 12, 64)
			}
			row = append(row, text)
		}
		rows = append(rows, row)
	}
	return looked(rows), left, nil
}

// looked leaves out the columns in which no load has a figure.
func looked(rows [][]string) [][]string {
	for i := len(rows[0]) - 1; i >= 0; i-- {
		if !slices.ContainsFunc(rows[1:], func(row []string) bool { return row[i] != "" }) {
			for k := range rows {
				rows[k] = slices.Delete(rows[k], i, i+1)
			}
		}
	}
	return rows
}

// elsewhere is the district of a load whose field has no place.
const elsewhere = "-"

// district is the place of a field: what stands behind the last comma.
func district(grown string) string {
	if i := strings.LastIndex(grown, ","); i >= 0 {
		grown = grown[i+1:]
	}
	if grown = strings.TrimSpace(grown); grown == "" {
		return elsewhere
	}
	return grown
}
