package words

import (
	"awn/intake"
	"awn/silo"
)

var intakeFindings = map[string]string{
	"intake.variety.not-tested":       "the variety stands on the declaration alone.",
	"intake.variety.other":            "the load is declared as another variety than the contract is for.",
	"intake.variety.untrue":           "the identity test does not agree with the declared variety.",
	"intake.cargo.unknown":            "what the vehicle carried before is not known.",
	"intake.fumigant.day-unknown":     "the grain was fumigated, and the day of arrival is not given.",
	"intake.fumigant.not-clear":       "the fumigant has not cleared yet.",
	"intake.meter.cold":               "the grain is at {grain_c}; below {least_c} moisture meters are not reliable.",
	"intake.factor.near-limit":        "{factor} reads {read} against a limit of {limit-of}: too near for a plain yes or no, the chance that the true figure meets it is {chance}.",
	"intake.factor.limit-missed":      "{factor} reads {read} and misses the limit of {limit-of}.",
	"intake.factor.within-tolerance":  "{factor} reads {read}, beyond the limit of {limit-of} but within the contract's tolerance.",
	"intake.factor.not-read":          "nobody read {factor}.",
	"intake.sieve.not-used":           "nobody used the slot that {factor} turns on, nor one on either side of it.",
	"intake.sieve.other-slots":        "{factor} was not sieved; between the slots that were used {normal_tenths} is to be expected (by a normal distribution of thickness) or {linear_tenths} (by an even one) against {limit-of}.",
	"intake.sieve.other-slots-fails":  "{factor} was not sieved; between the slots that were used {normal_tenths} is to be expected (by a normal distribution of thickness) or {linear_tenths} (by an even one), short of the limit of {limit-of} either way.",
	"intake.price.beyond-rule":        "{factor} reads {read}, and the price rule has no answer there.",
	"intake.mass.unknown":             "the mass to be paid for is not known: net mass, dockage or moisture is missing.",
	"intake.mass.shrink-gap":          "the contract's rule pays {payable_kg}, the loss of water alone would leave {by_dry_kg}: a gap of {gap_kg}, {gap_share_loss}. Half a per cent for handling is usual.",
	"intake.table.not-whole":          "only a part of this grade schedule is known here; it can refuse a load but not grade it.",
	"intake.sprout.severe":            "the grain has sprouted before harvest, severely. That {energy} germinate now[ ({low} to {high}, 95 in 100)] says nothing of how it keeps.",
	"intake.sprout.moderate":          "the grain has sprouted before harvest, moderately; it will not keep long.",
	"intake.sprout.possible":          "the falling number is low; the grain may have sprouted before harvest.",
	"intake.sprout.not-tested":        "nobody tested for sprout before harvest, and a germination count does not show it.",
	"intake.dormancy.present":         "{dormant} are dormant ({low} to {high}): alive, and not ready.",
	"intake.dead.many":                "{dead} are dead ({low} to {high}).",
	"intake.energy.low-cause-unknown": "only {energy} germinate, and without a capacity nobody can say whether the rest is dormant or dead.",
	"intake.water.sensitive":          "{sensitive} germinate in 4 mL of water but not in 8 mL ({low} to {high}): sensitive to water.",
	"intake.silo.none-fits":           "none of the {silos_n} silos takes this load.",
	"intake.dust.limit":               "tipping raises dust; the limit for grain dust at work is {dust_mg_m3} over eight hours. Measure with a calibrated meter.",
	"intake.probe.do-not-climb":       "probe from a platform; nobody stands on or walks down grain that may move.",
}

var siloFindings = map[string]string{
	"silo.readings.none":      "there is no reading of this store; it is taken to lie as it came.",
	"silo.readings.gap":       "for {gap_d} nobody read it, from day {from_d} on; the warmer end is taken.",
	"silo.temperature.rising": "the warmest sensor stands at {warmest_c} and rises by {week_k} a week, by {at_least_k} at least.",
	"silo.temperature.gap":    "the grain is {gap_k} warmer than the air outside ({warmest_c} against {outside_c}); air begins to turn in the store and carries water to its top.",
	"silo.moisture.top":       "the top is {points_wb} moister than the rest, more than two laboratories may differ by ({limit_wb}).",
	"silo.mould.critical":     "the grain has been at {limit_wb} or more for {wet_d}; {limit_d} are the critical limit for mould.",
	"silo.cooling.behind":     "after two weeks in store the grain should be below {limit_c}, where insects do not breed; it is at {warmest_c}.",
	"silo.grain.unknown":      "neither readings nor the intake say how moist and warm the grain is.",
	"silo.clock.beyond-law":   "the grain is wetter or warmer[ ({moisture_wb}, {warmest_c})] than the clock was found for[, {beyond_d} of it]; it loses life by the day.",
	"silo.clock.spent":        "the safe time is used up, {used} of it.",
	"silo.clock.too-short":    "{used} of the safe time is used; as the grain lies {left_d} are left and {needed_d} are needed. Germination goes before mould shows.",
	"silo.clock.tight":        "as the grain lies {left_d} are left, of which a plan may count on {plan_d}; {needed_d} are needed.",
	"silo.clock.half-used":    "{used} of the safe time is used; as the grain lies {left_d} are left.",
	"silo.humidity.high":      "the air between the corns stands at {low_rh} to {high_rh}; from {limit_rh} on mould can grow.",
	"silo.drying.needed":      "to keep for {keep_d} at its temperature the grain should hold {to_wb}, it holds {moisture_wb}. Where {air_c} is the rule for the drying air, keep to it.",
	"silo.heat.own":           "what the grain breathes would warm it by {rise_k} in {warm_d} if none of the heat left.",
	"silo.life.dying":         "living corns grow fewer: {chance} sure[; 95 % is reached in {to95_d}][, perhaps in {early_d}][; 90 % in {to90_d}].",
	"silo.life.vigour":        "fewer corns germinate in time ({chance} sure) while the living stay as many: vigour goes before life.",
	"silo.life.waking":        "more corns germinate at each count: dormancy goes.",
	"silo.life.not-shown":     "{looks_n} counts show neither a fall nor that there is none; the chance that it falls is {chance}.",
	"silo.life.sprouted":      "the grain sprouted before harvest; it does not keep.",
	"silo.life.low-at-steep":  "on the day of steeping {at_steep} are to be expected to live ({low} to {high}).",
	"silo.dormancy.present":   "{dormant} are dormant ({low} to {high}); dormancy is counted on to go at {hold_c} and above only.",
	"silo.layers.beyond-law":  "in the time to come some layers grow wetter or warmer than the laws of life were found for.",
	"silo.air.idle":           "in the time to come there is no hour in which the fan would help.",
	"silo.air.helps":          "the fan helps in {hours_h}, the first {first_h} from now, for {power_kwh_t}; the safe time used in the worst layer then comes to {used_aired} in place of {used_still}.",
	"silo.entry.permit":       "entering needs a permit, lock-out of what moves the grain, a gas test, harness and lifeline, and a trained person outside; nobody walks grain down or goes under a bridge of it.",
	"silo.entry.oxygen":       "the air inside must hold {oxygen_least_tenths} of oxygen at least, and of flammable gas no more than {flammable} of the lower limit. Measure with a calibrated meter.",
	"silo.entry.dioxide":      "grain breathes; the limit for carbon dioxide at work is {dioxide_ppm} over eight hours. Measure with a calibrated meter.",
	"silo.dust.limit":         "unloading raises dust; the limit for grain dust at work is {dust_mg_m3} over eight hours. Measure with a calibrated meter.",
}

var storeActs = map[string]string{
	"act.intake.test-variety":      "Have the variety tested.",
	"act.intake.ask-cargo":         "Ask for the passport of the load.",
	"act.intake.keep-out":          "Keep it closed until the day it is cleared.",
	"act.intake.warm-sample":       "Let the sample warm up, then read it.",
	"act.intake.sample-more":       "Take more probes or count more corns, and read again.",
	"act.intake.read-factor":       "Have it read before the load is tipped.",
	"act.intake.sieve-again":       "Sieve again with the slot that the limit names.",
	"act.intake.agree-price":       "Agree a price before the load is tipped.",
	"act.intake.weigh":             "Weigh the load, and read moisture and dockage.",
	"act.intake.use-first":         "Steep it first; do not store it.",
	"act.intake.use-soon":          "Steep it soon, and count germination every week until then.",
	"act.intake.test-viscosity":    "Test the viscosity of the slurry.",
	"act.intake.wait-for-dormancy": "Keep it at 15 °C or above, test it every week, and do not refuse it for this.",
	"act.intake.trace-drying":      "Ask how it was dried and stored.",
	"act.intake.test-capacity":     "Test the capacity with peroxide or tetrazolium.",
	"act.intake.longer-rests":      "Steep it with longer air rests and less water.",
	"act.intake.keep-apart":        "Keep it apart, or empty a silo.",

	"act.silo.read":            "Read the sensors every two weeks.",
	"act.silo.inspect":         "Look for the cause from outside, draw some grain off below and smell it, and cool it.",
	"act.silo.cool":            "Cool it when the air outside is dry and cold enough.",
	"act.silo.dry":             "Dry it.",
	"act.silo.use-first":       "Steep it next.",
	"act.silo.cool-or-deliver": "Cool it, or deliver it earlier.",
	"act.silo.test-capacity":   "Count the capacity beside the energy.",
	"act.silo.count-again":     "Count again in two weeks, 400 corns.",
	"act.silo.wait":            "Let it wait and test it every week; do not cool it further.",
	"act.silo.blow":            "Run the fan in those hours.",
}

var storeLines = map[string]string{
	"silo.respired":   "respired",
	"silo.metabolic":  "made by respiration",
	"silo.aired":      "from and to the air",
	"silo.breath":     "breathed out",
	"silo.combustion": "from respiration",
	"silo.air":        "from and to the air",
	"silo.walls":      "through the walls",
	"silo.top":        "through the top",
}

var decisionNames = map[intake.Decision]string{
	intake.Accept: "accept", intake.AcceptDiscount: "accept at a discount", intake.Hold: "hold for a test", intake.Refuse: "reject",
}

var barNames = map[intake.Bar]string{
	intake.NoRoom: "no room", intake.OtherVariety: "another variety", intake.OffProtein: "outside its protein band", intake.TooMoist: "too moist",
	intake.TooFewLiving: "too few living corns", intake.TooMuchDON: "too much deoxynivalenol", intake.SproutedApart: "sprouted and sound grain are never mixed",
	intake.NotKnown: "a figure it asks for was not read", intake.Fumigated: "the fumigant is not cleared",
}

var turnNames = map[silo.Reason]string{
	silo.BecauseSprouted: "it sprouted and does not keep", silo.BecauseHeating: "it is heating", silo.BecauseFalling: "its counts fall",
	silo.BecauseSooner: "it reaches 95 % sooner", silo.BecauseDormant: "it is still dormant", silo.BecauseNoRest: "it is dormant, but dies before it would wake",
	silo.BecauseUnknown: "nothing was counted",
}

var goingNames = map[silo.Going]string{
	silo.NotShown: "not shown", silo.Steady: "steady", silo.Falling: "falling", silo.Rising: "rising",
}

var factorNames = map[intake.Factor]string{
	intake.Moisture: "moisture", intake.Protein: "protein", intake.TestWeight: "test weight", intake.Held: "held by {slot}", intake.Through: "through {slot}",
	intake.Suitable: "suitable malting type", intake.Sound: "sound barley", intake.Damaged: "damaged kernels", intake.HeatDamaged: "heat-damaged",
	intake.InjuredByHeat: "injured by heat", intake.FrostDamaged: "frost-damaged", intake.InjuredByFrost: "injured by frost",
	intake.MouldDamaged: "mould-damaged", intake.InjuredByMould: "injured by mould", intake.FungusDamaged: "damaged by fungus or mould",
	intake.WildOats: "wild oats", intake.ForeignMaterial: "foreign material", intake.OtherGrains: "other grains", intake.SkinnedBroken: "skinned and broken",
	intake.Broken: "broken kernels", intake.Ergot: "ergot", intake.SmutBalls: "smut balls", intake.Bulblets: "garlic bulblets", intake.Stones: "stones",
	intake.StonesMass: "stones by mass", intake.Glass: "glass", intake.Infested: "live insects", intake.Odour: "odour", intake.Heating: "heating",
	intake.Fireburnt: "fireburnt", intake.FrostCanada: "frost", intake.FusariumDamaged: "Fusarium damage", intake.Heated: "heated", intake.Mildewed: "rotted and mildewed",
	intake.SmallSeeds: "small seeds", intake.SeedsAndDust: "small seeds, attrition, dust and chaff", intake.NotSound: "matter other than sound barley",
	intake.BrokenGrains: "broken grains", intake.GrainImpurities: "grain impurities", intake.OtherCereals: "other cereals", intake.Overheated: "overheated in drying",
	intake.Sprouted: "sprouted", intake.MiscImpurities: "miscellaneous impurities", intake.NoxiousSeeds: "noxious seeds", intake.Admixture: "admixture",
	intake.Energy: "germinative energy", intake.Energy8: "germination in 8 mL", intake.Capacity: "germinative capacity", intake.GerminationIndex: "germination index",
	intake.VarietyPurity: "purity of variety", intake.Skinned: "skinned", intake.DON: "deoxynivalenol", intake.Ochratoxin: "ochratoxin A",
	intake.T2HT2: "T-2 and HT-2 toxin", intake.FallingNumber: "falling number", intake.Viscosity: "slurry viscosity",
}

// storePhrases are what the accounts of a load and of a store say around the
// figures.
var storePhrases = map[string]string{}
