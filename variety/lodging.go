package variety

import (
	"slices"

	"awn/finding"
)

// Lodged leaves out of a trait the environments where nothing lodged: zeros
// everywhere say nothing of straw. It returns the trials without those figures
// and a remark for each environment left out.
func (t Trials) Lodged(trait string) (Trials, []Remark) {
	at := t.Trait(trait)
	if at < 0 {
		return t, []Remark{remark("trial.trait.unknown", finding.Alarm, trait)}
	}
	records := t.with(at)
	lodged := map[string]bool{}
	for _, r := range records {
		lodged[r.where()] = lodged[r.where()] || r.Value[at] > 0
	}
	out := t
	out.Records = nil
	for _, r := range t.Records {
		if at >= len(r.Value) || lodged[r.where()] {
			out.Records = append(out.Records, r)
			continue
		}
		r.Value = slices.Clone(r.Value)
		r.Value[at] = nan
		out.Records = append(out.Records, r)
	}
	var remarks []Remark
	for _, env := range labels(records, Record.where) {
		if !lodged[env] {
			m := remark("trial.lodging.none", finding.Note, trait)
			m.Environment = env
			remarks = append(remarks, m)
		}
	}
	return out, remarks
}
