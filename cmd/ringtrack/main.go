// Command ringtrack takes what a builder owns - a turntable bearing, a small
// gearmotor, a printer - to a toothed pinion and a toothed ring that mesh.
package main

import (
	"context"
	"os"
	"os/signal"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	code := run(ctx, os.Args, os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}
