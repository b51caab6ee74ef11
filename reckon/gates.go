package reckon

import "awn/unit"

// gates are the entries on a load at the gate.
var gates = []Entry{
	{
		Name: "ticket", Aliases: []string{"shrink", "settlement"}, Subject: "At the gate", Title: "What a load is paid for: dockage, shrink by the posted rule and by dry matter",
		Inputs: []Input{
			{Key: "mass", Words: []string{"m", "net"}, Doc: "mass of the load, net of tare", In: []unit.Dimension{unit.Mass}, Must: true},
			{Key: "dockage", Words: []string{"d"}, Doc: "dockage as read", In: []unit.Dimension{unit.Percent}, Default: "0 %"},
			moistureInput("moisture", "moisture of the load"),
			moistureInput("basis", "moisture that is paid for", "to"),
			{Key: "rule", Words: []string{"factor"}, Doc: "posted rule for each point above it", In: []unit.Dimension{unit.PointShrink}, Also: map[string]string{"% per point": "%/pt"}},
			{Key: "handling", Doc: "taken off for handling", In: []unit.Dimension{unit.Percent}, Named: true, Default: "0 %"},
			{Key: "taken", Doc: "how dockage is taken", Choices: []string{"recorded", "exact"}, Default: "recorded"},
		},
		Note:     "Dockage is taken off first, then the moisture counts on what is left. Name dockage and moisture: both are written in “%”. Without a rule dry matter decides.",
		Rounding: "“recorded” drops dockage to whole and half per cents, the rule for barley of 7 CFR 810.104; “exact” takes it as read. All else is " + Unrounded,
		Examples: []string{"ticket 60000 lb dockage 1.74 % moisture 15.8 % basis 13.5 % rule 1.4 %/pt", "ticket 25 t moisture 16 % basis 13.5 % handling 0.5 %", "ticket 25 t dockage 0.8 % exact moisture 17 % basis 14 %"},
		compute:  ticket,
	},
	{
		Name: "dockage", Subject: "At the gate", Title: "Dockage as it is recorded, and what it takes off",
		Inputs: []Input{
			{Key: "dockage", Words: []string{"d"}, Doc: "dockage as read", In: []unit.Dimension{unit.Percent}, Must: true},
			{Key: "mass", Words: []string{"m", "net"}, Doc: "mass of the load", In: []unit.Dimension{unit.Mass}},
		},
		Note:     "The rule for barley in the United States; elsewhere it is taken as read (“awn reckon ticket” with “exact”).",
		Rounding: "whole and half per cents, what is over being dropped (7 CFR 810.104).",
		Examples: []string{"dockage 1.74 %", "dockage 1.74 % of 60000 lb"},
		compute:  dockage,
	},
	{
		Name: "factor", Aliases: []string{"rounding"}, Subject: "At the gate", Title: "A grading factor as a certificate rounds it",
		Inputs:   []Input{{Key: "factor", Words: []string{"f"}, Doc: "factor as read", In: []unit.Dimension{unit.Percent}, Must: true}},
		Note:     "Dockage and plump barley have rules of their own: “dockage”, “plump”.",
		Rounding: "to tenths and to whole per cents, a half upwards (7 CFR 810.104).",
		Examples: []string{"factor 2.45 %"},
		compute:  factor,
	},
	{
		Name: "plump", Subject: "At the gate", Title: "Plump barley in the bands of a certificate",
		Inputs:   []Input{{Key: "plump", Words: []string{"p"}, Doc: "plump barley as read", In: []unit.Dimension{unit.Percent}, Must: true}},
		Note:     "Plump is what the slot of 6/64 in holds; another slot is another figure (“awn reckon sieves”).",
		Rounding: "to whole per cents, a half upwards; then the bands below 50, 50 to 55, 56 to 60, 61 to 65 ... (7 CFR 810.104).",
		Examples: []string{"plump 58 %"},
		compute:  plump,
	},
	{
		Name: "sieves", Aliases: []string{"sieving", "plumpness"}, Subject: "At the gate", Title: "What to expect over a slot that was not used, from those on either side",
		Inputs: []Input{
			{Key: "held", Doc: "share that one slot holds", In: []unit.Dimension{unit.Percent}, Must: true},
			{Key: "slot", Doc: "that slot", In: []unit.Dimension{unit.Length}, Must: true},
			{Key: "held2", Doc: "share that another slot holds", In: []unit.Dimension{unit.Percent}, Must: true},
			{Key: "slot2", Doc: "that slot", In: []unit.Dimension{unit.Length}, Must: true},
			{Key: "wanted", Words: []string{"for"}, Doc: "slot that the limit turns on", In: []unit.Dimension{unit.Length}, Must: true},
			{Key: "least", Words: []string{"limit"}, Doc: "least that it must hold", In: []unit.Dimension{unit.Percent}, Named: true},
		},
		Note:     "An estimate tells whether sieving again is worth it; it is no result, and 6/64 in is not 2.5 mm. Shares are by mass, coarser fractions included.",
		Examples: []string{"sieves 61 % over 7/64 in 92 % over 6/64 in for 2.5 mm least 90 %", "sieves 70 % over 2.8 mm 95 % over 2.2 mm for 6/64 in"},
		compute:  sieves,
	},
}
