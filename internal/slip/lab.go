package slip

import (
	"context"

	"awn/internal/malthouse"
	"awn/ledger"
)

// Read is what somebody on the floor measured by hand.
type Read struct {
	Thing   string   `arg:"" placeholder:"WHAT" help:"What was read: a piece, a silo."`
	Results []string `arg:"" placeholder:"“NAME VALUE”" help:"Readings, as in “moisture 42.9 % wb” “chit 93 %”."`
	Note    string   `placeholder:"TEXT" help:"Anything else."`
}

// Use is to read.
func (*Read) Use() malthouse.Use { return malthouse.UseRead }

// Enter records the readings.
func (s *Read) Enter(ctx context.Context, h *malthouse.House, a malthouse.Actor, e malthouse.Entry) (malthouse.Done, error) {
	found, err := Figures("results", s.Results, "")
	if err != nil {
		return malthouse.Done{}, err
	}
	of, err := find(ctx, h, s.Thing, ledger.Piece, ledger.Silo, ledger.MaltStore, ledger.ByProduct)
	if err != nil {
		return malthouse.Done{}, err
	}
	return h.Read(ctx, a, e, &ledger.Analysis{Of: of, Results: found, Note: s.Note})
}

// Analyse is what a laboratory found.
type Analyse struct {
	Thing   string   `arg:"" placeholder:"WHAT" help:"What was analysed: a delivery, a lot of malt, a shipment, a silo."`
	Results []string `arg:"" placeholder:"“NAME VALUE”" help:"Results, as in “don 1.6 mg/kg” “extract_fine 81.1 % dm”; “ndma < 1 ug/kg” is below what the method can see."`
	Method  string   `placeholder:"NAME" help:"Method, body and number, as in EBC 4.5.1. Results of several methods are several entries."`
	Lab     string   `default:"house" placeholder:"NAME" help:"The laboratory."`
	Sample  string   `placeholder:"CODE" help:"The sample that is kept."`
	Note    string   `placeholder:"TEXT" help:"Anything else."`
}

// Use is to analyse.
func (*Analyse) Use() malthouse.Use { return malthouse.UseAnalyse }

// Enter records the results.
func (s *Analyse) Enter(ctx context.Context, h *malthouse.House, a malthouse.Actor, e malthouse.Entry) (malthouse.Done, error) {
	found, err := Figures("results", s.Results, s.Method)
	if err != nil {
		return malthouse.Done{}, err
	}
	of, err := find(ctx, h, s.Thing)
	if err != nil {
		return malthouse.Done{}, err
	}
	return h.Analyse(ctx, a, e, &ledger.Analysis{Of: of, Sample: Code(s.Sample), Lab: s.Lab, Results: found, Note: s.Note})
}
