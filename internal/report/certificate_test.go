package report

import (
	"bytes"
	"crypto/ed25519"
	"encoding/hex"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"awn/certificate"
	"awn/internal/sheet"
	"awn/internal/words"
	"awn/malt"
)

// made is a certificate with something in every part.
func made() *certificate.Certificate {
	x := func(v float64) *float64 { return &v }
	day := func(n int64) int64 { return (20600 + n) * 86400_000 }
	return &certificate.Certificate{
		Awn: certificate.Kind, Number: "C26-0007", Replaces: "C26-0006", IssuedMs: day(0) + 9*3600_000, OffsetMin: 120,
		House: certificate.Party{Name: "Hallow Sound malthouse", Address: "Quay 2, Hallow Sound, Wennemark"},
		Buyer: certificate.Party{Name: "Skerry Brewery", Address: "Tarn Lane 9"}, Order: "4417", Shipment: "S26-0031", Vehicle: "WN 208", Seal: "55021",
		Product: "pale malt", NetKg: 24600,
		Lots:          []certificate.Lot{{Code: "L26-0107", Share: 0.62, CropYear: 2026, KilnedMs: day(-30)}, {Code: "L26-0108", Share: 0.38, CropYear: 2026, KilnedMs: day(-26)}},
		Varieties:     []certificate.Share{{Name: "Ellerdine Gold", Share: 1}},
		Origins:       []certificate.Origin{{Share: certificate.Share{Name: "Wennemark, east", Share: 0.55}, Least: 0.4, Most: 0.7}, {Share: certificate.Share{Name: "Wennemark, shore", Share: 0.45}, Least: 0.3, Most: 0.6}},
		Specification: "Skerry pale, 2026",
		Values: []certificate.Value{
			{Parameter: malt.Moisture, Basis: malt.WetBasis, Value: 0.046, Low: x(0.0425), High: x(0.0495), Method: "EBC 4.2", Of: certificate.OfLoad, Most: x(0.05), SampledMs: day(0)},
			{Parameter: malt.ExtractFine, Basis: malt.Dry, Value: 0.812, Low: x(0.805), High: x(0.819), Method: "EBC 4.5.1", Of: certificate.OfLot, Least: x(0.8)},
			{Parameter: malt.Colour, Basis: malt.ScaleEBC, Value: 3.4, Method: "EBC 4.7.1", Of: certificate.OfLot, Least: x(2.8), Most: x(3.2)},
			{Parameter: malt.KolbachIndex, Value: 0.412, Method: "EBC 4.9.1 over 4.3.1", Of: certificate.OfLot, Least: x(0.38), Most: x(0.44)},
			{Parameter: malt.AttenuationLimit, Value: 0.81, Method: "EBC 4.11.1", Of: certificate.OfTypical, Least: x(0.8)},
		},
		Residues:   []certificate.Residue{{Name: "deoxynivalenol", KgKg: 2e-7, Below: true, MostKgK: x(7.5e-7), Law: "EU 2023/915", Method: "strip", Of: certificate.OfLot}},
		Additions:  []certificate.Addition{{Name: "lactic acid", KgKg: 4e-4, Permitted: "the buyer, order 4417"}},
		Deviations: []certificate.Deviation{{Parameter: malt.Colour, Offered: "EUR 2 less for each tonne", Agreed: "M. Quill, 27 May"}},
		Statements: []string{"Barley contains gluten."}, Changes: "first load of the new harvest.",
		Sample:   &certificate.KeptSample{Code: "R26-0031", Where: "shelf 4", UntilMs: day(365)},
		Released: &certificate.Release{By: "E. Varr", AtMs: day(0), Reason: "all but colour within limits."},
		Record:   &certificate.RecordedHead{House: "hallow", Seq: 4711, Hash: strings.Repeat("ab", 32)},
	}
}

// signedSample is the sample under a key that everybody has: the first of
// RFC 8032, section 7.1. It proves nothing but the form.
func signedSample(t *testing.T) []byte {
	t.Helper()
	seed, err := hex.DecodeString("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60")
	if err != nil {
		t.Fatal(err)
	}
	file, err := certificate.Sign(made(), ed25519.NewKeyFromSeed(seed))
	if err != nil {
		t.Fatal(err)
	}
	return append(file, '\n')
}

func TestCertificateIsAsItWas(t *testing.T) {
	file := signedSample(t)
	c, key, err := certificate.Verify(file)
	if err != nil {
		t.Fatal(err)
	}
	var text bytes.Buffer
	if err := (CertificateSheet{Certificate: c, Key: key}).Text(&text); err != nil {
		t.Fatal(err)
	}
	for name, got := range map[string][]byte{"../../examples/certificate.json": file, "testdata/certificate.txt": text.Bytes()} {
		if *update {
			if err := os.WriteFile(filepath.FromSlash(name), got, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if want, err := os.ReadFile(filepath.FromSlash(name)); err != nil || !bytes.Equal(got, want) {
			t.Errorf("%s differs (%v); if that is meant, run the test with -update", name, err)
		}
	}
	for line := range strings.Lines(text.String()) {
		if n := len([]rune(strings.TrimRight(line, "\n"))); n > wideText {
			t.Errorf("%d letters: %s", n, line)
		}
	}
}

// TestCertificateAnswers holds the sheet against what brewers ask of one.
func TestCertificateAnswers(t *testing.T) {
	var b bytes.Buffer
	if err := (CertificateSheet{Certificate: made(), Units: words.American}).Text(&b); err != nil {
		t.Fatal(err)
	}
	text := strings.Join(strings.Fields(strings.ReplaceAll(b.String(), "\u00a0", " ")), " ")
	for question, answer := range map[string]string{
		"is it my lot or typical":      "usual, not this malt",
		"which method and basis":       "EBC 4.5.1",
		"crop year, variety, blend":    "This load is a blend of 2 lots.",
		"extract as it stands":         "77.5 % as-is",
		"moisture now":                 "4.6 %",
		"toxins":                       "below 200 µg/kg",
		"what changed":                 "Since the last load: first load of the new harvest.",
		"what is offered if it misses": "Offered: EUR 2 less for each tonne (agreed by M. Quill, 27 May).",
		"where it grew":                "Wennemark, east 55.0 % 40.0 %–70.0 %",
	} {
		if !strings.Contains(text, answer) {
			t.Errorf("%s: %q is not in\n%s", question, answer, text)
		}
	}
	for _, paper := range []sheet.Paper{sheet.A4, sheet.Letter} {
		var one, two bytes.Buffer
		c := CertificateSheet{Certificate: made(), URL: "https://example.org/c/abc"}
		if err := c.PDF(&one, paper); err != nil {
			t.Fatal(err)
		}
		if err := c.PDF(&two, paper); err != nil || !bytes.Equal(one.Bytes(), two.Bytes()) {
			t.Errorf("%s: the same certificate gives other bytes (%v)", paper, err)
		}
	}
}
