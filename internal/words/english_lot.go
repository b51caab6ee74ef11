package words

var lotFindings = map[string]string{
	"lot.moisture.assumed":          "the barley's moisture was not given; {value:wb} is taken ({low:wb} to {high:wb}).",
	"lot.protein.assumed":           "the protein was not given; {value:dm} is taken ({low:dm} to {high:dm}), which moves extract and soluble protein.",
	"lot.kernel-mass.assumed":       "the thousand-kernel weight was not given; {value:mg} a corn is taken ({low:mg} to {high:mg}), and with it the speed of steeping.",
	"lot.test-weight.assumed":       "the test weight was not given; {value:kg_hl} is taken ({low:kg_hl} to {high:kg_hl}).",
	"lot.capacity.assumed":          "germinative capacity was not given; {value} living corns are taken ({low} to {high}).",
	"lot.dormancy.assumed":          "dormancy was not measured; {value} dormant corns are taken ({low} to {high}).",
	"lot.water-sensitivity.assumed": "water sensitivity was not measured; {value} is taken ({low} to {high}), and with it how much rest the steep must give.",
	"lot.vigour.assumed":            "the speed of germination was not counted; half the corns are taken to chit after {value:ch} ({low:ch} to {high:ch}).",
	"lot.beta-glucan.assumed":       "beta-glucan was not measured; {value:dm} is taken ({low:dm} to {high:dm}).",
	"lot.uptake.assumed":            "no first immersion of this lot has been weighed; it may take up water at {low} to {high} of the usual speed.",
	"lot.sieve.assumed":             "no sieving was given; the fractions of an ordinary two-row lot are taken.",
}

var lotActs = map[string]string{
	"act.lot.measure-moisture":          "Give the moisture of the lot.",
	"act.lot.measure-protein":           "Give the protein of the lot.",
	"act.lot.measure-kernel-mass":       "Weigh a thousand kernels.",
	"act.lot.measure-test-weight":       "Give the test weight.",
	"act.lot.measure-capacity":          "Test the germinative capacity, 200 corns at least.",
	"act.lot.measure-dormancy":          "Count germination in 4 mL beside the capacity.",
	"act.lot.measure-water-sensitivity": "Count germination in 8 mL beside that in 4 mL.",
	"act.lot.measure-vigour":            "Count germination by day, on the first, second and third.",
	"act.lot.measure-beta-glucan":       "Have the beta-glucan measured.",
	"act.lot.measure-uptake":            "Steep a handful for six hours, weigh it drained, and give that moisture with the lot.",
	"act.lot.measure-sieve":             "Sieve 100 g and give the fractions.",
}
