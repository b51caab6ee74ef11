// Package variety judges barley varieties from trials: which serves the grower,
// the maltster and the brewer, and how sure one can be of it.
//
// A trial is read into Records, inspected for what is wrong with it, and
// analysed trait by trait with a mixed model (package mixed). On the effects of
// the varieties rest comparisons with the check, stability over environments,
// the scores of the three customers, what a further year or site would buy, and
// the sheet on which a candidate goes on or ends. Figures are in the units of
// the trial; every trait carries its own.
package variety
