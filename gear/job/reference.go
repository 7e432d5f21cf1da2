package job

import (
	"fmt"
	"strings"
)

// Reference returns the table of keys as Markdown: one table for each section
// that this version reads, then the keys it refuses because they belong to later
// stages. The text depends on the table of keys alone.
func Reference() string {
	var b strings.Builder
	for _, s := range sections {
		if !Reads(s.from) {
			continue
		}
		title := "The head of the file"
		if s.name != "" {
			title = "`" + s.header() + "`"
		}
		fmt.Fprintf(&b, "### %s\n\n%s.\n\n", title, strings.ToUpper(s.meaning[:1])+s.meaning[1:])
		if strings.HasPrefix(s.name, "making.") {
			b.WriteString("The keys are those of `[making]`.\n\n")
			continue
		}
		b.WriteString("| key | unit | allowed | default | meaning | default from |\n| --- | --- | --- | --- | --- | --- |\n")
		for _, k := range keysIn(s.name) {
			fmt.Fprintf(&b, "| `%s` | %s | %s | %s | %s | %s |\n", k.Name, k.Unit, cell(k.Allowed), cell(k.Default), cell(k.meaning()), k.Source)
		}
		b.WriteString("\n")
	}
	b.WriteString(laterReference())
	return b.String()
}

// laterReference lists what is refused for now.
func laterReference() string {
	var b strings.Builder
	b.WriteString("### Not read yet\n\nThese are refused with `not-yet`.\n\n| key | stage | meaning |\n| --- | --- | --- |\n")
	for _, s := range sections {
		if !Reads(s.from) {
			fmt.Fprintf(&b, "| `%s` | %s | %s |\n", s.header(), s.from, s.meaning)
		}
		for _, k := range index.rows {
			if k.Section == s.name && !Reads(k.From) {
				fmt.Fprintf(&b, "| `%s` | %s | %s |\n", strings.Join(k.Paths(), "`, `"), k.From, cell(k.Meaning))
			}
		}
	}
	for _, k := range index.rows {
		for _, c := range k.words {
			if !Reads(c.from) {
				fmt.Fprintf(&b, "| `%s = %q` | %s | %s |\n", join(k.Section, k.Name), c.word, c.from, cell(k.Meaning))
			}
		}
		if k.auto != "" && !Reads(k.auto) {
			fmt.Fprintf(&b, "| `%s = \"auto\"` | %s | %s |\n", join(k.Section, k.Name), k.auto, cell(k.Meaning))
		}
	}
	return b.String()
}

// header returns the section's header as it is written in a file.
func (s section) header() string {
	if s.double {
		return "[[" + s.name + "]]"
	}
	return "[" + s.name + "]"
}

// keysIn returns the rows that a section takes in this version.
func keysIn(sec string) []*Key {
	var out []*Key
	for _, k := range index.rows {
		if !Reads(k.From) {
			continue
		}
		for _, s := range append([]string{k.Section}, k.Also...) {
			if s == sec {
				out = append(out, k)
			}
		}
	}
	return out
}

// meaning joins the meaning with the usual choices and the kind of making.
func (k *Key) meaning() string {
	s := k.Meaning
	if k.Usual != "" {
		s += "; usual: " + k.Usual
	}
	if k.kinds != "" {
		s += " (" + k.kinds + " only)"
	}
	return s
}

// cell makes a text fit for a cell of a Markdown table.
func cell(s string) string { return strings.ReplaceAll(s, "|", `\|`) }
