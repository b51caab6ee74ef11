package main

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"time"

	"awn/course"
	"awn/internal/expect"
	"awn/internal/malthouse"
	"awn/internal/malthouse/year"
	"awn/internal/office"
	"awn/internal/report"
	"awn/internal/words"
)

// The weeks that are shown, round the end of the made-up year.
const (
	weeksBack  = 8 * 24 * time.Hour
	weeksAhead = 41 * 24 * time.Hour
)

// weeks is the string diagram of the made-up house as its year ends.
func weeks() (svg string, err error) {
	temp, err := os.MkdirTemp("", "awn")
	if err != nil {
		return "", err
	}
	defer os.RemoveAll(temp)
	ctx := context.Background()
	o, err := office.Open(ctx, filepath.Join(temp, "year.db"), true)
	if err != nil {
		return "", err
	}
	defer func() { err = errors.Join(err, o.DB.Close()) }()
	start := time.Date(2025, 11, 25, 0, 0, 0, 0, time.UTC)
	now := start.Add((year.Days*24 + 6) * time.Hour)
	o.House.Zone, o.House.Clock = time.UTC, func() time.Time { return now }
	if err := year.Make(ctx, o.House, 1, start); err != nil {
		return "", err
	}
	day := now.Truncate(24 * time.Hour)
	byPlan := func(context.Context, *malthouse.Plan) (*course.Ensemble, error) { return nil, nil }
	through, err := expect.Through(ctx, o.House, malthouse.Actor{ID: "runa", Role: malthouse.Manager}, day.Add(-weeksBack), day.Add(weeksAhead), byPlan, (*course.Ensemble).Given)
	if err != nil {
		return "", err
	}
	var page strings.Builder
	err = report.WeeksAccount{Weeks: through, Units: words.Units{}}.Live().Write(&page, "", "")
	return page.String(), err
}
