//go:build !linux

package fileset_test

import "testing"

func disk(*testing.T, string) string { return "" }

func readOnly(string) {}

func room(*testing.T, string) int { return 0 }
