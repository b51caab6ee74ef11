package words

// Sentences of the steep.
var steepFindings = map[string]string{
	"steep.oxygen.short": "the corns were short of oxygen, not of water: they held {moisture_wb} and got as little as {least} of the oxygen " +
		"they asked for[ at {at}], which cost {lost} of the time to chit; {chit} have chitted.",
	"steep.chit.held": "{held} of the corns were drowned back by an immersion of {immersed_h}; water-sensitive corns stand {free_h}.",
	"steep.moisture.low": "the grain leaves the steep at {drained_wb} drained, the driest corns at {driest_wb} inside; " +
		"below {least_wb} modification stays behind.",
	"steep.moisture.high": "the grain leaves the steep at {drained_wb} drained, the driest corns at {driest_wb} inside; " +
		"above {most_wb} growth is hard to hold.",
	"steep.rest.hot": "the resting grain reached {temp_c}[ at {at}]; above {limit_c} chit comes unevenly.",
	"steep.co2.high": "carbon dioxide between the corns reached {co2:tenths}[ at {at}]; above {limit:tenths} chit slows, and people are " +
		"at risk above {people_limit:tenths}. Measure the air before anyone goes in; local rules decide.",
	"steep.grain.frozen":     "wet grain fell to {temp_c}[ at {at}] and froze.",
	"steep.water.warm":       "the steep water reached {water_c}[ at {at}]; above {limit_c} corns are easily harmed.",
	"steep.vessel.overfull":  "the swollen grain and its water take {volume_m3}[ at {at}], the vessel holds {vessel_m3}.",
	"steep.suction.short":    "the programme draws {lack_m3_h} more air than the {vessel_m3_h} that the vessel gives.",
	"steep.aeration.short":   "the programme blows {lack_m3_h} more air than the {vessel_m3_h} that the vessel gives.",
	"steep.chit.impossible":  "only {growing} of the corns will grow at all: this lot does not make malt.",
	"steep.water.too-little": "the water filled, {used_m3}, is less than the {absorbed_m3} that the grain took up.",
}

// Sentences of germination.
var germinateFindings = map[string]string{
	"germinate.air.warm": "the air under the bed was wanted at {asked_c} and came at {reached_c}, for {hours_h}[ from {at}]: " +
		"it is {outside_c} outside, and the fan warms the air by {fan_heat_k}.",
	"germinate.air.cold":  "the air under the bed was up to {below_k} colder than asked, for {hours_h}[ from {at}].",
	"germinate.air.dry":   "the air under the bed was up to {below_rh} of humidity drier than asked, for {hours_h}[ from {at}]; the humidifier saturates {humidifier}.",
	"germinate.air.short": "{missing_share} of the airflow was missing[ from {at}]: the fan reaches {reached_kg_m2_s} against the bed.",
	"germinate.bed.hot":   "between the coolest and the warmest layer[, in the {spot},] lay {gap_k}, for {hours_h}[ from {at}].",
	"germinate.bed.warm":  "the warmest layer[, in the {spot},] reached {temp_high_c}, for {hours_h}[ from {at}]; growth fades there.",
	"germinate.bed.dry": "the bed dried from {start_wb} to {moisture_wb}: {evaporated_kg} of water went off with the air, " +
		"and what is left is {water_kg}.",
	"germinate.turn.missing": "the bed lay unturned for {unturned_h}[ from {at}]; rootlets felt together.",
	"germinate.oxygen.gone": "oxygen between the corns[ of the {spot}] fell to {oxygen_least} of fresh air's[ at {at}][, {after_stop_min} after the fan stopped], " +
		"for {hours_h}; {fermented_kg} of dry matter fermented and growth stood still.",
	"germinate.fan.stopped-breathless": "with the fan off for {stopped_h}[ from {at}] the first limit is oxygen, after {soonest_min} at the soonest[ and {usual_min} as computed]: " +
		"then growth stands still and corns ferment. At the end of the stop the bed has a mean of {mean_low_c} to {mean_high_c} and a hottest layer of {hottest_low_c} to {hottest_high_c}, by the draught, " +
		"and the air between the corns holds up to {co2_most} carbon dioxide.",
	"germinate.fan.stopped-hot": "with the fan off for {stopped_h}[ from {at}] the first limit is heat, after {soonest_min} at the soonest[ and {usual_min} as computed]: " +
		"at the end the bed has a mean of {mean_low_c} to {mean_high_c} and a hottest layer of {hottest_low_c} to {hottest_high_c}, by the draught, " +
		"and the air between the corns holds up to {co2_most} carbon dioxide.",
	"germinate.hold.missed": "{reading} was to be held at {asked:reading} and stood at {reached} with its setting at a limit, for {missed_h}[ from {at}].",
	"germinate.vigour.lost": "the bed has lost {vigour_lost} of its pace of growth to hours without oxygen.",
	"germinate.co2.room": "the air above the bed held {co2_most:tenths} carbon dioxide, for {hours_h}[ from {at}]; the limit for a working day is {limit:tenths}. " +
		"Measure the air before anyone goes in; local rules decide.",
	"germinate.corns.unmodified": "{whole_corns:tenths} of the corns are wholly unmodified and {partly_corns:tenths} partly; {idle:tenths} never grew.",
	"germinate.corns.overgrown":  "{overgrown:tenths} of the corns are overgrown; the mean acrospire is {acrospire:x} of the corn.",
}

// Sentences of the kiln and of dressing.
var kilnFindings = map[string]string{
	"kiln.strip.wet": "not safe to strip: the wettest layer[, layer {layer} from the floor][ of the {spot}], holds {worst_layer_wb} where {limit_wb} is the most; " +
		"the mean of {mean_wb} hides it.",
	"kiln.strip.hot": "not safe to strip: the hottest layer[, layer {layer} from the floor][ of the {spot}], stands at {hottest_c} where {limit_c} is the most.",
	"kiln.recirculation.early": "air was recirculated up to {recirculation} before the break[ of the {spot}][, from {at}], for {early_h}; damp air " +
		"leaves the top of the bed wet[ (break at {break_h})].",
	"kiln.break.none":    "no break was seen[: the air off the bed never left its plateau of {plateau_c}].",
	"kiln.break.top-wet": "at the break[, {at},] the top layer still held {worst_layer_wb}; above {limit_wb} a hot ramp stews it.",
	"kiln.fan.stopped":   "the fan stood still for {stopped_h} with grain on the kiln.",
	"kiln.decks.dropped-wet": "the upper deck had not broken when the piece was dropped[, at {at}]: it held {moisture_wb} and {worst_layer_wb} at its wettest, " +
		"after a cycle of {cycle_h}; the damp air of the lower deck does not dry it.",
	"kiln.decks.unsettled":       "after {runs_n} runs the two decks still move the end moisture by {moved_wb:tenths} points from one piece to the next.",
	"kiln.hold.missed":           "{reading} was to be held at {asked:reading} and stood at {reached} with its setting at a limit, {missed_h} in all[, last at {at}].",
	"kiln.fan.stopped-heated":    "the fan stood still for {stopped_h}[ from {at}] and the heat was on for {heated_h} of it: the floor layer reached {floor_c} while nothing dries above it.",
	"kiln.fan.short":             "the fan gave {given_share} of the airflow asked for[ at {at}], {short_h} in all; the bed stood at {bed_pa}.",
	"kiln.air-on.missed":         "air-on stayed up to {below_k} below its setting[ at {at}], {missed_h} in all: the burner gives no more.",
	"kiln.burner.cycling":        "the burner ran below its turn-down for {cycling_h} and will go on and off.",
	"kiln.recirculation.limited": "{asked} of return air were asked for and the dampers give {given}.",
	"dress.loss.high": "{loss_dm} of the dry matter is lost in malting: {respired_dm} respired, {culms_dm} culms, " +
		"{leached_dm} leached.",
}

// Sentences of a course.
var courseFindings = map[string]string{
	"malt.*.below": "{parameter} comes to {found} where {limit-of} is the least.",
	"malt.*.above": "{parameter} comes to {found} where {limit-of} is the most.",
	"malt.*.spot-below": "{parameter} passes over the whole bed and fails[ in the {spot}]: {found} where {limit-of} is the least, in {floor_share} " +
		"of the floor[, which got {air_x} of the mean air][ and broke at {spot_break_h}, the first spot at {first_break_h}][; air was recirculated from {recirculated_h} on].",
	"malt.*.spot-above": "{parameter} passes over the whole bed and fails[ in the {spot}]: {found} where {limit-of} is the most, in {floor_share} " +
		"of the floor[, which got {air_x} of the mean air][ and broke at {spot_break_h}, the first spot at {first_break_h}][; air was recirculated from {recirculated_h} on].",
	"programme.condition.unmet":      "{reading} was to come to {asked:reading} and stood at {reached} when the latest time of the step, {latest_h}, was up[, at {at}].",
	"programme.addition.unpermitted": "something is added that nobody is said to permit.",
	"programme.addition.uncounted":   "something is added whose effect is not counted: no factor is given for it.",
	"programme.addition.factor":      "the effect of an addition is counted only as the factors that the programme gives for it.",
	"begin.age.assumed":              "the growth age of the grain was not given; {age_d} are taken.",
}

var stageActs = map[string]string{
	"act.programme.hold-wider":    "Give the setting wider limits, or hold another value.",
	"act.addition.ask-permission": "Ask market and customer, and name who permits it; or leave it out.",
	"act.addition.give-factor":    "Give the factor that the house has measured, or expect the piece to differ.",
	"act.addition.drop-factor":    "Leave the factor out if it was not measured in this house.",
	"act.programme.later":         "Give the step a later latest time, or settings that reach its condition.",
	"act.begin.measure-acrospire": "Measure fifty acrospires and give their mean.",
	"act.lot.do-not-malt":         "Do not malt this lot; test it again after some weeks if it is dormant, and sell it if it is dead.",

	"act.steep.shorter-immersion-longer-rest": "Shorten the immersions and give the time to the rests between them.",
	"act.steep.more-suction":                  "Draw more air through the drained grain.",
	"act.steep.more-suction-or-cast":          "Draw more air through the drained grain, or cast it sooner.",
	"act.steep.longer-immersion-or-spray":     "Lengthen the last immersion, or spray in germination.",
	"act.steep.shorter-last-immersion":        "Shorten the last immersion.",
	"act.steep.warmer-air-or-water":           "Take warmer water, or draw warmer air.",
	"act.steep.colder-water":                  "Take colder water.",
	"act.steep.smaller-piece":                 "Cast a smaller piece.",
	"act.plant.more-suction":                  "Ask for less suction, or fit a larger fan.",
	"act.plant.more-aeration":                 "Ask for less aeration, or fit a larger blower.",
	"act.plant.more-steep-water":              "Fill more water at each immersion.",

	"act.germinate.more-return-or-cooling":   "Take more return air by night and less by day, or cool the air.",
	"act.germinate.more-return-or-heat":      "Take more return air, or heat it.",
	"act.germinate.less-air-or-bed":          "Ask for less air, or load a thinner bed.",
	"act.germinate.more-air":                 "Give more air.",
	"act.germinate.colder-air":               "Set the air colder, sooner.",
	"act.germinate.spray":                    "Spray at the turns, or hold the air nearer to saturation.",
	"act.germinate.spread-thinner":           "Spread the floor thinner.",
	"act.germinate.turn":                     "Turn more often.",
	"act.germinate.restart-fan-open-dampers": "Start the fan again with the dampers open; do not stop it for so long.",
	"act.germinate.stop-by-oxygen": "Start the fan before that, with fresh air only. If it cannot run: open all dampers and doors first, then turn the bed, and turn it again every hour. " +
		"Carbon dioxide lies in the vessel and under it: measure the air before anyone goes in; local rules decide.",
	"act.germinate.stop-by-heat": "Start the fan before that, with fresh air only. If it cannot run: open all dampers and doors first, then turn the bed and spray it with cold water. " +
		"Carbon dioxide lies in the vessel and under it: measure the air before anyone goes in; local rules decide.",
	"act.germinate.air-the-room-before-entry": "Open the dampers and air the room well before anyone goes in.",
	"act.germinate.longer-or-sound-barley":    "Grow longer or wetter; take out dead and dormant corns before the steep.",
	"act.germinate.shorter-or-colder":         "Grow shorter or colder.",
	"act.plant.more-cooling":                  "Fit more cooling, or set the air no colder than the house can make it.",
	"act.kiln.recirculate-after-break":        "Recirculate after the break only.",
	"act.kiln.recirculate-after-last-break":   "Recirculate when the last spot has broken, or level the bed.",
	"act.bed.level":                           "Level the bed, or give the worst spot the air and time it needs.",
	"act.kiln.extend-fresh-air":               "Dry on with fresh air before the cure ends.",
	"act.kiln.cool-longer":                    "Cool longer before stripping.",
	"act.kiln.longer-cycle":                   "Give each deck more hours or more air, or let warm air in between the decks.",
	"act.kiln.name-lower-piece":               "Name the piece on the lower deck, or give each deck more hours.",
	"act.kiln.heat-off-first":                 "Cut the heat first, then open the dampers, then start the fan; do not go into the kiln before its air is measured.",
	"act.kiln.keep-fan-running":               "Keep the fan running for as long as there is grain on the kiln.",
	"act.kiln.ask-less-flow":                  "Ask for less air, or load a thinner bed.",
	"act.kiln.ask-more-flow":                  "Ask for more air, or fire a smaller burner.",
	"act.kiln.ask-less-recirculation":         "Ask for no more return air than the dampers give.",
	"act.kiln.cure-cooler":                    "Cure cooler.",
	"act.kiln.cure-hotter":                    "Cure hotter.",
	"act.kiln.cure-longer":                    "Cure longer.",
	"act.kiln.cure-shorter":                   "Cure for a shorter time.",
	"act.germinate.longer":                    "Grow longer or warmer.",
	"act.lot.choose-another":                  "Take another lot for this malt, or ask for another limit.",
	"act.plant.better-humidifier":             "Mend or enlarge the humidifier.",
}

// Names of balance lines. The stage is said beside them.
var stageLines = map[string]string{
	"steep.respired": "respired", "steep.fermented": "fermented", "steep.leached": "leached", "steep.absorbed": "taken up",
	"steep.sprayed": "sprayed", "steep.evaporated": "evaporated", "steep.metabolic": "made by respiration", "steep.air": "air",
	"steep.exchanged": "exchanged with water", "steep.walls": "walls", "steep.water": "water", "steep.voids": "air between corns",
	"germinate.respired": "respired", "germinate.fermented": "fermented", "germinate.evaporated": "evaporated",
	"germinate.sprayed": "sprayed", "germinate.metabolic": "made by respiration", "germinate.air": "air",
	"germinate.walls": "walls", "germinate.voids": "air between corns", "germinate.air-on": "air-on", "germinate.air-off": "air-off",
	"kiln.respired": "respired", "kiln.air-on": "air-on", "kiln.air-off": "air-off",
}
