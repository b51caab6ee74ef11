// Package complaint answers what a difference in finished malt is owed to: the
// barley, the vessel it was made in, or the test that found it.
//
// It fits the figures of many pieces by a mixed model with barley lot, vessels and
// tests as terms, says how much of the differences each takes and how sure that is,
// and holds every vessel against the others, all having been looked at.
package complaint
