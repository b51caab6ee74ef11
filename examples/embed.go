// Package examples holds the documents of a made-up malthouse: the Hallow Sound
// malthouse in the invented county of Wennemark. Its lots, programmes and
// buyers are invented too.
package examples

import "embed"

// Files are the documents, each piece beside what it names.
//
//go:embed *.yaml checks/*.yaml
var Files embed.FS

// First is the piece that is run when none is named.
const First = "piece.yaml"
