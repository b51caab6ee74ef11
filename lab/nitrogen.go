package lab

// ProteinPerNitrogen is the protein that barley and malt are said to hold per
// nitrogen found: a convention of the trade, the same on every basis.
//
// Source: ASBC Barley-7.
const ProteinPerNitrogen = 6.25

// Protein is the protein of a nitrogen figure, on the basis of that figure.
//
//	protein = 6.25 N
//
// Source: ASBC Barley-7.
// Check: 1.664 % gives 10.40 %.
func Protein(nitrogen float64) float64 { return ProteinPerNitrogen * nitrogen }

// Nitrogen is the nitrogen of a protein figure, on the basis of that figure.
//
//	N = protein / 6.25
//
// Source: ASBC Barley-7.
func Nitrogen(protein float64) float64 { return protein / ProteinPerNitrogen }
