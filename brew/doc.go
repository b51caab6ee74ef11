// Package brew says what a malt becomes: wort, its attenuation, alcohol, and
// litres of spirit.
package brew
