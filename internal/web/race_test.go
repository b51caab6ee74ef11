//go:build race

package web

func init() { raced = true }
