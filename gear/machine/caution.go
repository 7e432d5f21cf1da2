package machine

// Cautions returns what must be said whenever a motor turns the pair.
//
// ISO 13857 is the standard for openings in guards; the gaps of ISO 13854 are
// about crushing and not about drawing in (published summaries of both
// standards). The rest is common practice.
func Cautions() []string {
	return []string{
		"Where pinion and ring run together they draw fingers, hair and sleeves in, even slowly; reversing, on both sides of the pinion. Guard the mesh (ISO 13857 for openings).",
		"The gaps of ISO 13854 keep from crushing; they do not make an in-running nip safe.",
		"Cut the supply off before reaching in, and let nothing start again by itself.",
		"Fuse near the battery, for the wire; let the controller limit the current at stall.",
		"Do not lift or carry people, and let nobody ride.",
		"Local codes apply, and a licensed practitioner decides.",
	}
}
