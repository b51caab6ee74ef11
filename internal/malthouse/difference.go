package malthouse

import (
	"context"
	"math"
	"strconv"
	"time"

	"awn/ledger"
)

// Unexplained is what nobody can explain of a place in a month.
type Unexplained struct {
	Place ledger.Account
	Month ledger.Month
	ledger.Difference
	Limit float64 // the share from which on it is an alarm
}

// Alarm reports whether it is too much.
func (x Unexplained) Alarm() bool { return x.Share() >= x.Limit }

// Said says it in a sentence.
func (x Unexplained) Said() Said {
	what := "unexplained"
	if math.IsNaN(x.Share()) || x.Through == 0 {
		what = "unexplained-only"
	} else if x.Alarm() {
		what = "unexplained-alarm"
	}
	if !math.IsNaN(x.Chance()) && what != "unexplained-only" {
		what += "-odds"
	}
	return say(what, "place", string(x.Place), "month", string(x.Month)).
		with("gap_kg_dm", kg(x.Gap)).with("share_tenths", x.Share()).with("chance", x.Chance()).with("limit_tenths", x.Limit)
}

// settingAlarm is the key of the share from which on a difference is an alarm.
const settingAlarm = "alarm.unexplained"

// unexplained works out what nobody can explain of a place in a month. All
// that went through the place until the end of the month counts: a silo that
// was filled last year is not judged by what came this month.
func (h *House) unexplained(ctx context.Context, r ledger.Reader, place ledger.Account, month ledger.Month) (Unexplained, error) {
	x := Unexplained{Place: place, Month: month, Limit: ledger.AlarmShare}
	first, err := time.ParseInLocation("2006-01", string(month), h.Zone)
	if err != nil {
		return x, err
	}
	end := first.AddDate(0, 1, 0).UnixMilli()
	flows, err := r.Touching(ctx, []ledger.Account{place})
	if err != nil {
		return x, err
	}
	own := ledger.Unexplained(place, string(month))
	var some []ledger.Flow
	for _, f := range flows {
		other := f.From
		if other == place {
			other = f.To
		}
		if f.At < end && (other.Kind() != own.Kind() || other == own) {
			some = append(some, f)
		}
	}
	x.Difference = ledger.DryMatter(place, some)
	if text, found, err := h.Desk.Setting(ctx, settingAlarm); err != nil {
		return x, err
	} else if limit, bad := strconv.ParseFloat(text, 64); found && bad == nil {
		x.Limit = limit
	}
	return x, nil
}
