package ledger

// Kind is what happened, as a past participle. The list is closed.
type Kind string

// The kinds, in the order in which grain usually meets them.
const (
	Received  Kind = "received"  // a load came in
	Sampled   Kind = "sampled"   // a sample was taken
	Analysed  Kind = "analysed"  // a laboratory or an instrument gave results
	Moved     Kind = "moved"     // grain or malt went from one place to another
	Intended  Kind = "intended"  // a piece is to be cast
	Cast      Kind = "cast"      // a piece was begun
	Immersed  Kind = "immersed"  // a piece was put under water
	Drained   Kind = "drained"   // water was let off a piece
	Couched   Kind = "couched"   // a piece went to germinate
	Turned    Kind = "turned"    // a piece was turned
	Sprayed   Kind = "sprayed"   // water was sprayed on a piece
	Kilned    Kind = "kilned"    // a piece went to the kiln
	Stripped  Kind = "stripped"  // a piece came off the kiln
	Dressed   Kind = "dressed"   // malt, culms and screenings were parted
	Released  Kind = "released"  // something may go out
	Held      Kind = "held"      // something may not go out
	Blended   Kind = "blended"   // lots were made into one
	Shipped   Kind = "shipped"   // a load went out
	Returned  Kind = "returned"  // a load, or part of it, came back
	Certified Kind = "certified" // a certificate was issued
	Withdrawn Kind = "withdrawn" // a certificate was taken back
	Struck    Kind = "struck"    // an earlier fact was declared wrong
	Adjusted  Kind = "adjusted"  // the book was set to what was counted
	Cleaned   Kind = "cleaned"   // a place was emptied and cleaned
	Decided   Kind = "decided"   // somebody chose
	Logged    Kind = "logged"    // a stretch of readings was sealed
)

// form is how the body of one kind is read: how an empty one is made, and the
// steps that bring the body of an older schema up to date, one per schema that
// was left behind. The current schema is one more than there are steps.
type form struct {
	empty  func() Body
	raises []func(tree) tree
}

func (f form) schema() int { return len(f.raises) + 1 }

// forms has every kind.
var forms = map[Kind]form{
	Received:  {empty: func() Body { return new(Receipt) }},
	Sampled:   {empty: func() Body { return new(Sampling) }},
	Analysed:  {empty: func() Body { return new(Analysis) }},
	Moved:     {empty: func() Body { return new(Move) }},
	Intended:  {empty: func() Body { return new(Intention) }},
	Cast:      {empty: func() Body { return new(Casting) }},
	Immersed:  {empty: func() Body { return new(Watering) }},
	Drained:   {empty: func() Body { return new(Draining) }},
	Couched:   {empty: func() Body { return new(Couching) }},
	Turned:    {empty: func() Body { return new(Turning) }},
	Sprayed:   {empty: func() Body { return new(Spraying) }},
	Kilned:    {empty: func() Body { return new(Kilning) }},
	Stripped:  {empty: func() Body { return new(Stripping) }},
	Dressed:   {empty: func() Body { return new(Dressing) }},
	Released:  {empty: func() Body { return new(Release) }},
	Held:      {empty: func() Body { return new(Hold) }},
	Blended:   {empty: func() Body { return new(Blending) }},
	Shipped:   {empty: func() Body { return new(Shipping) }},
	Returned:  {empty: func() Body { return new(Return) }},
	Certified: {empty: func() Body { return new(Certificate) }},
	Withdrawn: {empty: func() Body { return new(Withdrawal) }},
	Struck:    {empty: func() Body { return new(Strike) }},
	Adjusted:  {empty: func() Body { return new(Adjustment) }},
	Cleaned:   {empty: func() Body { return new(Cleaning) }},
	Decided:   {empty: func() Body { return new(Decision) }},
	Logged:    {empty: func() Body { return new(Log) }},
}
