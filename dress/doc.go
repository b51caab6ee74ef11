// Package dress takes the culms off kilned malt and screens it, and says what
// is left: malt, by-products to feed, and the yield on each basis in use.
package dress
