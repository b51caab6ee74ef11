package variety

import (
	"context"
	"errors"
	"slices"

	"awn/finding"
)

// Brief is what is asked of trials as a whole. The zero value asks the usual.
type Brief struct {
	Customers []Customer // grower, maltster and brewer with the usual weights, if nil
	Rank      RankOptions
	By        string   // quality is also compared at equal figures of this trait; protein, if it is empty
	Stressed  []string // environments that drought held back
	Free      []string // environments that it did not
	MoreYears int      // how far Outlook looks
	MoreSites int
	Sheet     Sheet
	Progress  func(done, of int) // told before every trait
}

// comparisons are made at this confidence: 5 % of wrong calls, as in trials at
// large.
const comparisons = 0.95

// mostPairs is with how many entries every pair is still compared; with more
// nobody reads them.
const mostPairs = 40

// Judged is a trait with all that the trial says of it.
type Judged struct {
	*Analysis
	Failed   bool // the analysis holds remarks alone
	Against  []Comparison
	Pairs    []Pair    // none with too many entries
	Adjusted *Adjusted // nil unless it is a quality and can be compared so
	Shares   *Shares   // of a share of diseased or lodged; nil if it cannot be fitted
	SharesOf []ShareComparison

	Whole       Table    // the complete table on which stability and biplots rest
	LeftOut     []string // entries and environments that it lacks
	Stabilities []Stability
	AMMI, GGE   *Biplot
	Outlook     []Buy
}

// Account is all that trials say: of the data, of each trait, and for whom each
// entry serves.
type Account struct {
	Check    string // empty where there is none
	Traits   []Judged
	Ranking  *Ranking // nil where nobody's score can be given
	Guides   []Guide  // by customer
	Droughts []Drought
	Sheet    Sheet
	Remarks  []Remark // of everything, gravest first
}

// Weigh analyses every trait, ranks the entries for every customer, and fills in
// the sheet of candidates. If no trait can be analysed it returns ErrNothing with
// the remarks that say why.
func (t Trials) Weigh(ctx context.Context, b Brief) (*Account, error) {
	out := &Account{Sheet: b.Sheet}
	if len(t.Checks) > 0 {
		out.Check = t.Checks[0]
	}
	var good []*Analysis
	for i, trait := range t.Traits {
		if b.Progress != nil {
			b.Progress(i, len(t.Traits))
		}
		j, err := t.judge(ctx, trait, out.Check, b)
		if err != nil {
			return nil, err
		}
		if !j.Failed {
			good = append(good, j.Analysis)
		}
		out.Traits = append(out.Traits, j)
		out.Remarks = append(out.Remarks, j.Remarks...)
	}
	if len(good) > 0 {
		if err := t.rankInto(ctx, out, good, b); err != nil {
			return nil, err
		}
	}
	if len(b.Stressed)+len(b.Free) > 0 {
		drought, remarks := t.drought(b.Stressed, b.Free)
		out.Droughts, out.Remarks = drought, append(out.Remarks, remarks...)
	}
	t.evidence(out, good)
	out.Remarks = append(out.Remarks, out.Sheet.Check()...)
	slices.SortStableFunc(out.Remarks, func(a, b Remark) int { return int(b.Severity) - int(a.Severity) })
	if len(good) == 0 {
		return out, ErrNothing
	}
	return out, nil
}

// rankInto ranks the entries for the customers, and chooses by index and
// desirability beside.
func (t Trials) rankInto(ctx context.Context, out *Account, good []*Analysis, b Brief) error {
	customers := b.Customers
	if customers == nil {
		var traits []Trait
		for _, a := range good {
			traits = append(traits, a.Trait)
		}
		customers = Customers(traits)
	}
	if len(customers) == 0 || out.Check == "" {
		return nil
	}
	ranking, err := t.Rank(ctx, good, customers, out.Check, b.Rank)
	if errors.Is(err, ErrCheck) {
		return nil
	}
	if err != nil {
		return err
	}
	out.Ranking, out.Remarks = ranking, append(out.Remarks, ranking.Remarks...)
	for _, c := range customers {
		g, remarks := t.guide(c, good)
		out.Guides, out.Remarks = append(out.Guides, g), append(out.Remarks, remarks...)
	}
	return nil
}

// judge is one trait. What a trial cannot tell is missing from it.
func (t Trials) judge(ctx context.Context, trait Trait, check string, b Brief) (Judged, error) {
	var remarks []Remark
	usual := kind(trait.Name)
	if usual == "lodging" {
		t, remarks = t.Lodged(trait.Name)
	}
	a, err := t.Analyse(ctx, Question{Trait: trait.Name})
	a.Trait, a.Remarks = trait, append(a.Remarks, remarks...)
	out := Judged{Analysis: a, Failed: err != nil}
	if errors.Is(err, ErrNothing) {
		return out, nil
	}
	if err != nil {
		return out, err
	}
	out.Against = a.Against(check, comparisons)
	if len(a.Entries) <= mostPairs {
		if out.Pairs, err = a.Pairs(ctx, comparisons); err != nil {
			return out, err
		}
	}
	if out.Adjusted, err = t.atEqual(ctx, usual, trait, check, b.By); err != nil {
		return out, err
	}
	if v, ok := shareVariances[usual]; ok {
		out.Shares, err = t.Shares(ctx, trait.Name, v)
		switch {
		case errors.Is(err, ErrNothing), errors.Is(err, ErrNotSettled):
			a.Remarks = append(a.Remarks, remark("trial.share.unfitted", finding.Note, trait.Name))
		case err != nil:
			return out, err
		default:
			out.SharesOf = out.Shares.Against(check, comparisons)
		}
	}
	out.spread(t)
	out.Outlook = a.Outlook(b.MoreYears, b.MoreSites)
	return out, nil
}

// spread is how the entries answer to environments.
func (j *Judged) spread(t Trials) {
	var entries, environments []string
	j.Whole, entries, environments = t.Table(j.Trait.Name).Complete()
	j.LeftOut = append(entries, environments...)
	j.Stabilities = j.Whole.Stabilities(j.Trait.Direction)
	j.AMMI, j.GGE = j.Whole.AMMI(), j.Whole.GGE()
}

// qualities are the traits of which one asks whether they are the variety's own
// or only follow its protein.
var qualities = []string{
	"extract", "diastatic_power", "alpha_amylase", "beta_glucan", "fan", "kolbach", "fermentability", "plump", "screenings",
}

// atEqual compares a quality at equal figures of another trait, protein as a rule;
// nil where it is no quality or the trial cannot tell.
func (t Trials) atEqual(ctx context.Context, usual string, trait Trait, check, by string) (*Adjusted, error) {
	if by == "" {
		for _, other := range t.Traits {
			if kind(other.Name) == "protein" {
				by = other.Name
			}
		}
	}
	if check == "" || by == "" || by == trait.Name || !slices.Contains(qualities, usual) {
		return nil, nil
	}
	out, err := t.AdjustFor(ctx, Question{Trait: trait.Name}, by, check)
	if errors.Is(err, ErrNothing) {
		return nil, nil
	}
	return out, err
}

// evidence fills in the steps of the sheet that rest on this trial.
func (t Trials) evidence(out *Account, good []*Analysis) {
	candidates := slices.Clone(out.Sheet.Candidates)
	for i, c := range candidates {
		candidates[i].Steps = slices.Clone(c.Steps)
		for k, step := range c.Steps {
			if step.ThisTrial {
				candidates[i].Steps[k].Evidence = append(slices.Clone(step.Evidence), t.EvidenceOf(c.Name, out.Check, good, out.Ranking)...)
			}
		}
	}
	out.Sheet.Candidates = candidates
}
