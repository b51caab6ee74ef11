package web

import (
	"errors"
	"strings"

	"awn/internal/account"
	"awn/internal/malthouse"
	"awn/internal/paper"
	"awn/internal/slip"
	"awn/internal/words"
	"awn/ledger"
	"awn/unit"
)

// tell says in the reader's language what is wrong with what was sent, a
// sentence for each fault; as the error has it where it is none of ours.
func tell(u words.Units, err error) (out []string) {
	var (
		refused *malthouse.Refusal
		record  ledger.Faults
		docs    paper.Faults
		slips   slip.Faults
		own     *fault
		door    *account.Fault
	)
	coded := func(code, said string) { out = append(out, said+" ["+code+"]") }
	switch {
	case u.Tongue == words.English:
		return strings.Split(err.Error(), "\n")
	case errors.As(err, &refused):
		coded(refused.Code, u.Fault(refused.Code, refused.Error(), refused.Got, refused.Allowed, refused.Nearest))
	case errors.As(err, &record):
		for _, f := range record {
			coded(f.Code, f.Path+": "+u.Fault(f.Code, f.Error(), f.Got, f.Allowed, f.Nearest))
		}
	case errors.As(err, &docs):
		for _, f := range docs {
			coded(f.Code, u.Say("page.fault.at", "file", f.File, "line", u.Number(float64(f.Line), 0), "column", u.Number(float64(f.Column), 0))+": "+sentence(u, f))
		}
	case errors.As(err, &slips):
		for _, f := range slips {
			out = append(out, u.Say("slip.field."+f.Field)+": "+slipSays(u, f))
		}
	case errors.As(err, &door):
		out = []string{u.Fault(door.Code, door.Says(), door.Detail, nil, "")}
	case errors.As(err, &own):
		return []string{own.in(u)}
	default:
		return strings.Split(err.Error(), "\n")
	}
	return out
}

// sentence says a fault of a document.
func sentence(u words.Units, f paper.Fault) string {
	return u.Fault(f.Code, f.Sentence(), f.Got, f.Allowed, f.Nearest)
}

// slipSays says a fault of a slip.
func slipSays(u words.Units, f slip.Fault) string {
	if f.Code == "" || u.Tongue == words.English {
		return f.Says
	}
	said := u.Fault(f.Code, unit.Fill(slip.Sentences[f.Code], f.Got, f.Allowed, f.Nearest), f.Got, f.Allowed, f.Nearest)
	if f.Within != "" {
		return "“" + f.Within + "”: " + said
	}
	return said
}
