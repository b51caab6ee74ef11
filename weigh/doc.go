// Package weigh says what scales, testers and laboratories that read the same
// grain imply about each other: the figures that agree best with all of them
// and with the dry matter that cannot have come or gone, whether they agree at
// all, and, if not, which single reading is the first to look at.
package weigh
