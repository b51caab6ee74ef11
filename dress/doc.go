// Package dress cleans and screens barley before the steep and malt after the
// kiln: culms, screenings and dust, what they fetch, and the yield on each basis
// in use.
package dress
