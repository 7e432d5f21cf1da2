package job

// The rows of what goes to the cutter and onto paper: tabs, layers of sheet,
// the sheet itself, arcs in drawings, templates.

// templates is the stage that brings them.
const templates = "templates"

var cutKeys = []Key{
	{Section: "making", Also: members, Name: "tabs", From: templates, takes: aCount, lo: 0, hi: 64, preset: "0", kinds: "cut",
		Meaning: "bridges left in the part's outside, so that it stays in the sheet", Usual: "0, 2 to 4", Source: "the tool's own"},
	{Section: "making", Also: members, Name: "tab_width", Unit: "mm", From: templates, takes: aQuantity, lo: 0.1, hi: 10, preset: "0.5", kinds: "cut",
		Meaning: "of each bridge", Usual: "0.3 to 0.8", Source: practice},
	{Section: "making", Also: members, Name: "copies", From: templates, takes: aCount, lo: 1, hi: 200, preset: "1", kinds: "cut",
		Meaning: "how many of the part are laid out on sheets", Source: "the tool's own"},
	{Section: "making", Also: members, Name: "sheet_thickness", Unit: "mm", From: templates, takes: aQuantity, lo: 0.2, hi: 100, Default: "face_width: one layer", kinds: "cut",
		Meaning: "as measured; a thinner sheet than face_width gives layers with dowel holes", Usual: "2.9 for a sheet sold as 3", Source: "the tool's own"},
	{Section: "making", Also: members, Name: "dowels", From: templates, takes: aCount, lo: 0, hi: 24, preset: "3", kinds: "cut",
		Meaning: "holes for pins that hold layers in line; 0: none", Usual: "3, 4", Source: practice},
	{Section: "making", Also: members, Name: "dowel", Unit: "mm", From: templates, takes: aQuantity, lo: 0.5, hi: 50, preset: "3", kinds: "cut",
		Meaning: "diameter of the finished dowel holes", Usual: "2, 3, 4", Source: practice},
	{Section: "making", Also: members, Name: "dowel_circle", Unit: "mm", From: templates, takes: aQuantity, lo: 1, hi: 60000, preset: `"auto"`, auto: templates, kinds: "cut",
		Meaning: "diameter through the dowels' centres; auto: middle of the part's wall", Source: "the tool's rule"},
}

var sheetKeys = []Key{
	{Section: "sheet", Name: "width", Unit: "mm", From: templates, takes: aQuantity, lo: 10, hi: 10000, Default: "required in this section",
		Meaning: "of the sheet", Usual: "300, 400, 600"},
	{Section: "sheet", Name: "height", Unit: "mm", From: templates, takes: aQuantity, lo: 10, hi: 10000, Default: "required in this section",
		Meaning: "of the sheet, as it lies on the cutter", Usual: "200, 300, 400"},
	{Section: "sheet", Name: "edge", Unit: "mm", From: templates, takes: aQuantity, lo: 0, hi: 1000, preset: "5",
		Meaning: "kept free along the sheet's edges", Source: practice},
	{Section: "sheet", Name: "spacing", Unit: "mm", From: templates, takes: aQuantity, lo: 0, hi: 1000, preset: "3",
		Meaning: "between parts; at least the kerf", Usual: "2 to 5", Source: practice},
	{Section: "sheet", Name: "openings", From: templates, takes: aFlag, preset: "false",
		Meaning: "true: small parts may be cut from the waste inside the ring", Source: "the tool's own"},
}

var paperKeys = []Key{
	{Section: "output", Name: "arc_tolerance", Unit: "mm", From: templates, takes: aQuantity, lo: 0.0001, hi: 1, preset: "0.002",
		Meaning: "dxf and svg: greatest distance of an arc from the true curve", Source: "far below what cutters keep, " + practice},
	{Section: "output", Name: "drawing_unit", From: templates, takes: aWord, words: later(templates, "mm", "in"), preset: `"mm"`,
		Meaning: "dxf: unit of the numbers in the file; in: the file's name says so", Source: "the tool's own"},
	{Section: "output", Name: "paper", From: templates, takes: aWord, words: later(templates, "a4", "a3", "letter", "tabloid"), preset: `"a4"`,
		Meaning: "pdf: of the drill template", Source: "ISO 216"},
	{Section: "output", Name: "paper_across", Unit: "mm", From: templates, takes: aQuantity, lo: 91, hi: 109, preset: "100",
		Meaning: "pdf: what the 100 mm mark across the page measured on a print made without this key; pages are corrected by it", Usual: "99.5 to 100.5", Source: "a true printer"},
	{Section: "output", Name: "paper_up", Unit: "mm", From: templates, takes: aQuantity, lo: 91, hi: 109, preset: "100",
		Meaning: "pdf: the same for the 100 mm mark up the page", Usual: "99.5 to 100.5", Source: "a true printer"},
}
