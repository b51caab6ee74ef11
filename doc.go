// Package awn holds no code: it is the map of a malthouse that computes.
//
// One piece of barley is followed through its whole course. Each stage is a
// package, in the order in which the grain moves:
//
//	stage            package     what it answers
//	the choice       variety     which barley serves the grower, the maltster and the brewer, from trials
//	the harvest      crop        what a harvest is like from samples of many farms, whom it serves, how it will malt
//	the gate         intake      what a load is worth, whether it is taken, and which silo takes it
//	the store        silo        how long barley keeps, and what keeps it alive
//	the lot          barley      what the grain is: classes, moisture, properties, isotherms
//	the laboratory   lab         what an analysis means: method, basis, precision
//	the house        plant       what the piece is made in: vessels, fans, burners, weather, prices
//	the plan         programme   what will be done, step by step, and when a step ends
//	steep            steep       how the corns take up water and oxygen, and when they chit
//	germination      germinate   how they grow, respire and are modified, layer by layer
//	kiln             kiln        how the bed dries, breaks and cures, and what survives
//	dressing         dress       what comes off as culms and screenings, and what is left
//	malt             malt        what the laboratory will say of it, and whether it meets a specification
//	brewhouse        brew        what the malt becomes: wort, attenuation, alcohol
//	the whole        course      one piece through all of it, with its balances and its weak points
//
// Under the stages lie the packages that they share:
//
//	unit             quantities that the trade confuses, each a type of its own
//	finding          what a computation tells a person: a code and figures, never a sentence
//	odds             parameters with their ranges, draws, counts and limits
//	mixed            mixed models: what is owed to variety, place, year and chance
//	air              moist air
//	kernel           the living corn: uptake through its skin, chit clock, respiration, age
//	bed              air on its way through a bed of grain
//	weigh            which of scale, tester or loss is wrong when they disagree
//	reckon           every small sum of the packages above, and the catalogue of their formulas
//
// Whatever computes the trade stands at the top of the tree. Whatever touches
// disk, network, terminal or clock stands in internal, and cmd/awn is the
// program. ARCHITECTURE.md says which package may import which, and a test
// keeps it.
package awn
