package malthouse

import (
	"context"
	"slices"
	"strconv"
	"strings"
	"time"

	"awn/ledger"
)

// The keys of what a house sets.
const (
	SettingName    = "house.name"
	SettingAddress = "house.address"
	SettingContact = "house.contact"
	SettingZone    = "house.zone"
	SettingOrigin  = "origin.shown"
	SettingURL     = "house.url" // begin of the addresses of the house
	settingKeep    = "readings.keep"
)

// Setting is a key with what it is where nobody set it, and what it may be, if
// only that.
type Setting struct {
	Key, Default string
	Words        []string
}

// Settings lists them.
func Settings() []Setting {
	out := []Setting{
		{Key: SettingName, Default: "house"}, {Key: SettingAddress}, {Key: SettingContact}, {Key: SettingZone, Default: "Local"}, {Key: SettingURL},
		{Key: settingAlarm, Default: "0.01"}, {Key: settingKeep}, {Key: SettingOrigin, Default: originNone, Words: []string{originNone, originRegion, originGrower}},
	}
	for _, d := range Duties() {
		out = append(out, Setting{Key: settingDue + d.Key, Default: strconv.Itoa(d.Days)})
	}
	return out
}

// What a house lets its certificates say of where barley grew.
const (
	originNone   = "none"
	originRegion = "region" // field and place
	originGrower = "grower"
)

// CheckSetting refuses a key or a value that cannot be.
func CheckSetting(key, value string) error {
	var keys []string
	for _, s := range Settings() {
		keys = append(keys, s.Key)
	}
	switch key {
	case SettingName, SettingAddress, SettingContact, SettingURL:
		return nil
	case settingKeep:
		if days, err := strconv.Atoi(value); value != "" && (err != nil || days < leastKept) {
			return refuse("use.setting.value", value, "a number of days of at least "+strconv.Itoa(leastKept)+", or nothing, which is for good")
		}
		return nil
	case SettingZone:
		if _, err := time.LoadLocation(value); err != nil {
			return refuse("use.setting.value", value, "a time zone such as Europe/London")
		}
		return nil
	case settingAlarm:
		if x, err := strconv.ParseFloat(value, 64); err != nil || !(x > 0 && x < 1) {
			return refuse("use.setting.value", value, "a share between 0 and 1 such as 0.01")
		}
		return nil
	case SettingOrigin:
		if value != originNone && value != originRegion && value != originGrower {
			return refuse("use.setting.value", value, originNone, originRegion, originGrower)
		}
		return nil
	}
	if _, due := strings.CutPrefix(key, settingDue); due && slices.Contains(keys, key) {
		if n, err := strconv.Atoi(value); err != nil || n < 0 {
			return refuse("use.setting.value", value, "days, 0 for never")
		}
		return nil
	}
	return refuse("use.setting.unknown", key, keys...)
}

// Settle sets what a house sets. That it was set, and by whom, is on record.
// Another zone holds from when the house is opened again.
func (h *House) Settle(ctx context.Context, a Actor, e Entry, key, value string) (Done, error) {
	if err := a.Permit(UsePeople); err != nil {
		return Done{}, err
	}
	if err := CheckSetting(key, value); err != nil {
		return Done{}, err
	}
	done, err := h.enter(ctx, a, UsePeople, e, &ledger.Decision{Decision: "set " + key + ": " + value}, steps{
		said: func() Said { return say("settled", "key", key, "value", value) },
	})
	if err != nil {
		return done, err
	}
	return done, h.Desk.Set(ctx, key, value)
}
