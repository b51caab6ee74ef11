// Package bed holds what air meets on its way through a bed of grain: the
// bed's resistance, what a fan gives against it, how one plenum pressure
// shares the air between thick and thin spots, and the flow that lifts the
// grain.
//
// Flows are superficial velocities, m³ of air per m² of floor and second at
// the state of the air in the bed. Who counts air by its mass converts once.
package bed
