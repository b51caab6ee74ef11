package report

import "io"

func (a CropAccount) HTML(w io.Writer) error { return nil }
