package lab

import "awn/odds"

// Method is one published way to measure something. The texts themselves are
// sold by the bodies; this says only which number covers what.
type Method struct {
	Body    string
	Number  string
	Subject string
	Basis   string        // asis, dm, or empty where the figure has none or it is not known
	Mark    odds.Standing // whether the number was read or is from memory
}

// FindMethod returns the method of that body and number.
func FindMethod(body, number string) (Method, bool) {
	for _, m := range Methods {
		if m.Body == body && m.Number == number {
			return m, true
		}
	}
	return Method{}, false
}

// Methods is the catalogue. The basis is that on which the figure is usually
// reported, common practice without a source.
var Methods = []Method{
	{"ASBC", "Barley-1", "sampling and grading", "", odds.Sourced},
	{"ASBC", "Barley-2A", "variety", "", odds.Recalled},
	{"ASBC", "Barley-2B", "test weight", "asis", odds.Recalled},
	{"ASBC", "Barley-2C", "assortment by sieve", "asis", odds.Recalled},
	{"ASBC", "Barley-2D", "thousand-kernel weight", "dm", odds.Recalled},
	{"ASBC", "Barley-2E", "mellowness", "", odds.Recalled},
	{"ASBC", "Barley-2F", "skinned and broken kernels", "", odds.Recalled},
	{"ASBC", "Barley-2G", "weathering", "", odds.Recalled},
	{"ASBC", "Barley-2H", "sprout injury", "", odds.Recalled},
	{"ASBC", "Barley-3A", "germinative energy", "", odds.Sourced},
	{"ASBC", "Barley-3B", "germinative capacity by peroxide", "", odds.Sourced},
	{"ASBC", "Barley-3C", "energy, capacity and water sensitivity together", "", odds.Sourced},
	{"ASBC", "Barley-4", "sample preparation", "", odds.Sourced},
	{"ASBC", "Barley-5", "moisture of barley", "asis", odds.Sourced},
	{"ASBC", "Barley-6", "extract of barley", "dm", odds.Sourced},
	{"ASBC", "Barley-7", "protein of barley, nitrogen times 6.25", "dm", odds.Sourced},
	{"ASBC", "Barley-12", "pre-germination by viscometer", "", odds.Recalled},
	{"ASBC", "Malt-3", "moisture of malt", "asis", odds.Recalled},
	{"ASBC", "Malt-4", "extract of malt", "dm", odds.Recalled},
	{"ASBC", "Malt-6", "diastatic power", "asis", odds.Recalled},
	{"ASBC", "Malt-7", "alpha-amylase", "dm", odds.Recalled},
	{"ASBC", "Malt-8", "protein of malt", "dm", odds.Recalled},
	{"ASBC", "Malt-12", "friability", "", odds.Recalled},
	{"ASBC", "Wort-9", "colour of wort", "", odds.Recalled},
	{"ASBC", "Wort-10", "protein of wort", "", odds.Recalled},
	{"ASBC", "Wort-12", "free amino nitrogen", "", odds.Recalled},
	{"ASBC", "Wort-13", "viscosity of wort", "", odds.Recalled},
	{"ASBC", "Wort-17", "soluble protein by ultraviolet light", "", odds.Recalled},
	{"ASBC", "Wort-18", "beta-glucan of wort", "", odds.Recalled},
	{"ASBC", "Beer-6", "original extract and degree of fermentation", "", odds.Recalled},
	{"EBC", "3.2", "moisture of barley", "asis", odds.Sourced},
	{"EBC", "3.3.1", "total nitrogen of barley", "dm", odds.Sourced},
	{"EBC", "3.5.1", "germinative capacity by staining", "", odds.Recalled},
	{"EBC", "3.5.2", "germinative capacity by peroxide", "", odds.Recalled},
	{"EBC", "3.6", "germinative energy", "", odds.Recalled},
	{"EBC", "3.7", "germination index", "", odds.Recalled},
	{"EBC", "3.10.1", "beta-glucan of barley", "dm", odds.Sourced},
	{"EBC", "3.10.2", "beta-glucan of barley", "dm", odds.Sourced},
	{"EBC", "3.11.1", "sieving of barley", "asis", odds.Sourced},
	{"EBC", "4.2", "moisture of malt", "asis", odds.Sourced},
	{"EBC", "4.3.1", "total nitrogen of malt", "dm", odds.Sourced},
	{"EBC", "4.5.1", "extract of malt, Congress mash", "dm", odds.Sourced},
	{"EBC", "4.6.1", "hot water extract", "dm", odds.Recalled},
	{"EBC", "4.7.1", "colour of malt by eye", "", odds.Sourced},
	{"EBC", "4.7.2", "colour of malt by spectrophotometer", "", odds.Sourced},
	{"EBC", "4.8", "viscosity of laboratory wort", "", odds.Recalled},
	{"EBC", "4.9.1", "soluble nitrogen of malt", "dm", odds.Sourced},
	{"EBC", "4.10", "free amino nitrogen of malt", "dm", odds.Recalled},
	{"EBC", "4.11.1", "fermentability", "", odds.Recalled},
	{"EBC", "4.12", "diastatic power, equation corrected in 2007", "dm", odds.Sourced},
	{"EBC", "4.13", "alpha-amylase", "dm", odds.Recalled},
	{"EBC", "4.14", "modification by fluorescence", "", odds.Recalled},
	{"EBC", "4.15", "friability", "", odds.Recalled},
	{"EBC", "4.16", "beta-glucan of malt and wort", "", odds.Recalled},
	{"EBC", "4.22", "sieving of malt", "asis", odds.Sourced},
	{"EBC", "8.4", "viscosity of wort", "", odds.Sourced},
	{"EBC", "8.10", "free amino nitrogen of wort", "", odds.Sourced},
	{"MEBAK", "R-110.14.730", "pre-germination by eye", "", odds.Sourced},
	{"MEBAK", "R-110.37.600", "pre-germination by copper sulphate", "", odds.Sourced},
	{"ISO", "24333:2009", "sampling of cereals", "", odds.Sourced},
	{"ISO", "TR 29263:2021", "studies of cereal sampling", "", odds.Sourced},
	{"ISO", "712", "moisture of cereals, routine reference", "asis", odds.Sourced},
	{"ISO", "7971-3", "bulk density, routine", "asis", odds.Recalled},
	{"ISO", "520", "thousand-kernel mass", "", odds.Recalled},
	{"ISO", "16634-2", "total nitrogen of cereals by combustion", "dm", odds.Recalled},
	{"EN", "15587", "impurities: broken and shrivelled grain", "", odds.Sourced},
	{"EU", "2023/2782", "sampling and analysis for mycotoxins", "", odds.Sourced},
	{"ICC", "107/1", "falling number", "", odds.Recalled},
	{"AACC", "56-81", "falling number", "", odds.Recalled},
	{"ISTA", "table 5B", "tolerated range of germination replicates", "", odds.Sourced},
}
