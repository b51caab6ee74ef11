// Package odds holds what is uncertain: counts and their limits, chances of
// acceptance, quantiles, figures with their bands, and the parameter table of
// the model.
package odds
