// Command awn computes the malting of barley, from a lot to finished malt.
package main

import (
	"context"
	"os"
	"os/signal"

	"awn/internal/cli"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	status := cli.Main(ctx, os.Args[1:], cli.Streams{In: os.Stdin, Out: os.Stdout, Err: os.Stderr})
	stop()
	os.Exit(status)
}
