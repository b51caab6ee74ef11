package cli

import "awn/internal/slip"

type blendCommand struct {
	slip.Blend
	entering
}

// Help shows how lots are blended.
func (c *blendCommand) Help() string {
	return `  awn blend --from "M1 20 t" --from "M2 10 t" --to M3`
}

// Run makes one lot of several.
func (c *blendCommand) Run(j *job) error { return c.enter(j, &c.Blend) }

type shipCommand struct {
	slip.Ship
	entering
}

// Help shows how a load goes out.
func (c *shipCommand) Help() string {
	return `  awn ship "Tern Rock Brewery" --from "M1 27 t" --vehicle "WN 2231" --seal 88410

Malt on hold stays in. Malt that nobody has released goes, and that is said.`
}

// Run sends a load out.
func (c *shipCommand) Run(j *job) error { return c.enter(j, &c.Ship) }

type returnCommand struct {
	slip.Return
	entering
}

// Help shows how a load comes back.
func (c *returnCommand) Help() string {
	return `  awn return S26-0001 "27 t" --to M9 --reason "wet hatch"`
}

// Run takes a load back.
func (c *returnCommand) Run(j *job) error { return c.enter(j, &c.Return) }

type releaseCommand struct {
	slip.Release
	entering
}

// Help shows how something is released.
func (c *releaseCommand) Help() string {
	return `  awn release M26-0001 --reason "meets the specification"

A release rests on the analyses of the thing: if one is struck later, the
release is listed as shaken. awn does not release malt; somebody does.`
}

// Run releases something.
func (c *releaseCommand) Run(j *job) error { return c.enter(j, &c.Release) }

type holdCommand struct {
	slip.Hold
	entering
}

// Help shows how something is held.
func (c *holdCommand) Help() string { return `  awn hold M26-0001 --reason "second sample out"` }

// Run holds something.
func (c *holdCommand) Run(j *job) error { return c.enter(j, &c.Hold) }

type personCommand struct {
	slip.Person
	entering
}

// Help shows how people are made known.
func (c *personCommand) Help() string {
	return `  awn person anna --role laboratory --name "Anna Reed"
  awn person ternrock --name "Tern Rock Brewery" --contact "+44 0000 1"

Roles are on record; names and contacts are kept beside it, and can be removed.`
}

// Run makes somebody known.
func (c *personCommand) Run(j *job) error { return c.enter(j, &c.Person) }

type decideCommand struct {
	slip.Decide
	entering
}

// Help shows what can be decided.
func (c *decideCommand) Help() string {
	return `  awn decide silo:B7 --drawn in-layers
  awn decide M26-0001 --decision "kept for winter beer" --reason "colour"`
}

// Run records a decision.
func (c *decideCommand) Run(j *job) error { return c.enter(j, &c.Decide) }

type strikeCommand struct {
	slip.Strike
	entering
}

// Help shows how an entry is struck.
func (c *strikeCommand) Help() string {
	return `  awn strike 14 --reason "scale read in lb"

Declares an entry wrong: what it moved goes back, both stay readable, and what
rests on it is named. Enter what is right anew.`
}

// Run strikes an entry.
func (c *strikeCommand) Run(j *job) error { return c.enter(j, &c.Strike) }
