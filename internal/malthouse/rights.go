package malthouse

import "slices"

// Role is what somebody does in the house.
type Role string

// The roles.
const (
	Floor      Role = "floor"
	Laboratory Role = "laboratory"
	Intake     Role = "intake"
	Planning   Role = "planning"
	Sales      Role = "sales"
	Manager    Role = "manager"
	Auditor    Role = "auditor" // reads, and writes nothing
)

// Roles lists them.
func Roles() []Role { return []Role{Floor, Laboratory, Intake, Planning, Sales, Manager, Auditor} }

// Actor is who takes a use.
type Actor struct {
	ID, Name string
	Role     Role
	Scope    Scope // of the program that acts for a person
}

// Scope narrows what a program may do that acts for a person: never more than
// the person may.
type Scope string

// The scopes.
const (
	ScopeAll   Scope = ""      // all that the person may
	ScopeEnter Scope = "enter" // enter what happened and was measured; decide nothing
	ScopeRead  Scope = "read"
)

// Scopes lists them, the narrowest first.
func Scopes() []Scope { return []Scope{ScopeRead, ScopeEnter, ScopeAll} }

// entering are the uses that say what happened, and decide nothing.
var entering = []Use{UseLook, UseReceive, UseMove, UseCount, UseStart, UseAct, UseRead, UseBook, UseSample, UseAnalyse}

// lets reports whether a scope lets somebody do something.
func (s Scope) lets(u Use) bool {
	switch s {
	case ScopeAll:
		return true
	case ScopeEnter:
		return slices.Contains(entering, u)
	}
	return u == UseLook
}

// Use is one thing that can be done with a record.
type Use string

// The uses.
const (
	UseReceive  Use = "receive"
	UseMove     Use = "move"
	UseCount    Use = "count"
	UseIntend   Use = "intend" // a piece
	UseStart    Use = "start"
	UseAct      Use = "act"
	UseRead     Use = "read"
	UseBook     Use = "book"
	UseSample   Use = "sample"
	UseAnalyse  Use = "analyse"
	UseRelease  Use = "release"
	UseHold     Use = "hold"
	UseBlend    Use = "blend"
	UseShip     Use = "ship"
	UseAgainst  Use = "ship-held" // ship what is held, with a reason
	UseReturn   Use = "return"
	UseStrike   Use = "strike"
	UseDecide   Use = "decide"
	UseCertify  Use = "certify"
	UseWithdraw Use = "withdraw"
	UsePeople   Use = "people"
	UseClose    Use = "close" // a day
	UseShift    Use = "shift" // give and take a shift
	UseImport   Use = "import"
	UseLog      Use = "log" // readings of sensors
	UseKey      Use = "key"
	UseLook     Use = "look" // ask the record
)

// rights says which roles may do what. A manager may do all that is here, and
// everybody may look.
var rights = map[Use][]Role{
	UseReceive:  {Intake},
	UseMove:     {Floor, Intake, Planning},
	UseCount:    {Floor, Intake, Planning},
	UseIntend:   {Planning},
	UseStart:    {Floor, Planning},
	UseAct:      {Floor},
	UseRead:     {Floor, Laboratory, Intake},
	UseBook:     {Floor},
	UseSample:   {Floor, Laboratory, Intake, Sales},
	UseAnalyse:  {Laboratory, Intake},
	UseRelease:  {Laboratory},
	UseHold:     {Floor, Laboratory, Intake, Planning, Sales},
	UseBlend:    {Floor, Planning},
	UseShip:     {Sales, Floor},
	UseAgainst:  {},
	UseReturn:   {Sales, Intake},
	UseStrike:   {Laboratory, Intake, Planning},
	UseDecide:   {Planning, Laboratory},
	UseCertify:  {Laboratory, Sales},
	UseWithdraw: {Laboratory},
	UsePeople:   {},
	UseClose:    {Planning},
	UseShift:    {Floor, Intake, Laboratory},
	UseImport:   {Intake, Laboratory},
	UseLog:      {Floor, Laboratory, Intake},
	UseKey:      {},
	UseLook:     {Floor, Laboratory, Intake, Planning, Sales, Auditor},
}

// May reports whether somebody in a role may do something.
func (r Role) May(u Use) bool {
	may, known := rights[u]
	return known && (r == Manager || slices.Contains(may, r))
}

// May reports whether an actor may do something.
func (a Actor) May(u Use) bool { return a.Role.May(u) && a.Scope.lets(u) }

// Permit refuses an actor who may not.
func (a Actor) Permit(u Use) error {
	if a.May(u) {
		return nil
	}
	if a.Role.May(u) {
		return &Refusal{Code: "use.scope.narrow", Got: string(a.Scope)}
	}
	var who []string
	for _, r := range Roles() {
		if r.May(u) {
			who = append(who, string(r))
		}
	}
	return &Refusal{Code: "use.right.missing", Got: string(a.Role) + " " + string(u), Allowed: who}
}
