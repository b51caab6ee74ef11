package words

// doubtFindings are about how far counts, readings and scales can be trusted,
// and about a bed that tells on its air.
var doubtFindings = map[string]string{
	"odds.limit.met":    "the chance that the lot truly meets the limit is {chance_tenths}.",
	"odds.limit.missed": "the chance that the lot truly meets the limit is only {chance_tenths}.",
	"odds.limit.near":   "the chance that the lot truly meets the limit is {chance_tenths}: too near for a plain yes or no.",

	"lab.results.agree":     "two honest laboratories differ by as much or more in {chance_tenths} of cases: no reason to doubt either.",
	"lab.results.differ":    "two honest laboratories differ by as much or more in only {chance_tenths} of cases: one of the two is off, and the figures alone do not say which.",
	"lab.replicates.agree":  "the replicates lie {range_tenths} apart and sampling explains {tolerated_tenths}: the test stands.",
	"lab.replicates.differ": "the replicates lie {range_tenths} apart, and sampling explains no more than {tolerated_tenths}: the test does not stand.",

	"intake.toxin.below":  "that it reads {read_mg_kg:x}\u00a0mg/kg leaves the lot between {low_mg_kg:x} and {high_mg_kg:x} (90 in 100), below the limit of {limit_mg_kg:x}.",
	"intake.toxin.unsure": "that it reads {read_mg_kg:x}\u00a0mg/kg leaves the lot between {low_mg_kg:x} and {high_mg_kg:x} (90 in 100): it may lie on either side of the limit of {limit_mg_kg:x}.",
	"intake.toxin.above":  "that it reads {read_mg_kg:x}\u00a0mg/kg leaves the lot between {low_mg_kg:x} and {high_mg_kg:x} (90 in 100), above the limit of {limit_mg_kg:x}.",

	"germinate.passing.short":  "the bed's heat leaves with about {passing_m3_h_t}, and {asked_m3_h_t} were asked for.",
	"germinate.passing.none":   "the bed warms by {rise_k} an hour, by as much as all its heat: hardly any air can be passing, or it grows hotter than was said.",
	"germinate.passing.untold": "the bed is no warmer than its air; from its heat nothing can be told of how much passes.",
	"germinate.limit.passed":   "the warmest layer is at the limit of {limit_c} or past it.",
	"germinate.limit.soon":     "as it warms now it reaches {limit_c} in {hours_h}; without air it would in {still_h} at the soonest.",
	"germinate.limit.far":      "as it warms now it reaches {limit_c} in {hours_h}; without air it would in {still_h} at the soonest.",
	"germinate.bed.steady":     "it does not warm; without air it would reach {limit_c} in {still_h} at the soonest.",

	"weigh.readings.unchecked": "nothing here checks anything else: with so few readings every one of them stands alone.",
	"weigh.readings.agree":     "the {readings_n} readings agree: honest ones differ by as much or more in {chance} of cases.",
	"weigh.mass.suspect":       "honest readings differ so much in {chance:tenths} of cases only. First suspect, with odds of {first}: the mass in part {place_n}. It reads {read_kg}, {away_x} deviations off; by all the others it is {would_kg}.",
	"weigh.moisture.suspect":   "honest readings differ so much in {chance:tenths} of cases only. First suspect, with odds of {first}: the moisture in part {place_n}. It reads {read_wb}, {away_x} deviations off; by all the others it is {would_wb}.",
	"weigh.off.suspect":        "honest readings differ so much in {chance:tenths} of cases only. First suspect, with odds of {first}: what was taken out in part {place_n}. It reads {read_kg}, {away_x} deviations off; by all the others it is {would_kg}.",
	"weigh.lost.suspect":       "honest readings differ so much in {chance:tenths} of cases only. First suspect, with odds of {first}: the share lost unweighed in part {place_n}. It is taken as {taken_dm}, {away_x} deviations off; by all the others it is {would_dm}.",
	"weigh.suspects.alike":     "the others cannot tell {alike_n} of the readings apart: a fault in any of them would look the same.",
	"weigh.rest.differs":       "without the first suspect the others still differ, as honest ones do in {chance:tenths} of cases: more than one is off, or grain came or went that nobody weighed.",
}

var doubtActs = map[string]string{
	"act.odds.look-at-more":    "Count more corns or have it measured again, then decide.",
	"act.lab.third-laboratory": "See that both used one method, one basis and one sealed sample; then have a third laboratory read it.",
	"act.lab.take-mean":        "Take the mean of the two.",
	"act.lab.test-again":       "Test it again with fresh replicates.",
	"act.intake.toxin-apart":   "Keep it apart and do not mix it down; what may be done with it is for the law of the place and its official sample to say.",
	"act.intake.larger-sample": "Draw a larger sample by more increments, grind and analyse more of it, and decide then.",
	"act.germinate.find-air":   "Look at the fan, its dampers and the floor, and turn the bed if it is felted.",
	"act.germinate.cool-now":   "Set the air colder or give more of it now; if there is none to give, turn the bed.",
	"act.weigh.read-again":     "Weigh it, or read it, again before anybody pays or books by it.",
	"act.weigh.read-more":      "Weigh or read it at one more place, by another instrument.",
	"act.weigh.read-all":       "Read all of them again, and look for grain that was added or taken away.",
}
