package gallery

import (
	"strings"

	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
)

// citation is a published source with the reason it is named for. Sheet and row stand beside each.
type citation struct{ topic, text string }

var always = []citation{
	{"annulus", "Mihaila-Baldea S et al. Cardiol Res Pract 2020:3261714, doi 10.1155/2020/3261714"},       // anatomy.md S01
	{"contact", "Gogoladze G et al. Ann Thorac Surg 2010;89:1158"},                                        // anatomy.md S21
	{"orifice", "Gorlin R, Gorlin SG. Am Heart J 1951;41:1–29"},                                           // physics.md S15
	{"grading", "Zoghbi WA et al. J Am Soc Echocardiogr 2017;30:303–371"},                                 // physics.md S18
	{"grading", "Vahanian A et al. Eur Heart J 2022;43:561–632, doi 10.1093/eurheartj/ehab395"},           // physics.md S28
	{"circulation", "Bjørdalsbakke NL et al. Math Biosci 2022;343:108731, doi 10.1016/j.mbs.2021.108731"}, // physics.md S29
}

var byRepair = map[repair.Kind][]citation{
	repair.SinusBand: {{"sinus", "Bhattacharya S et al. J Biomech 2014;47:1382"}, {"artery", "Gould KL et al. Am J Cardiol 1974;33:87–94"}},                    // anatomy.md S45, physics.md S43
	repair.EdgeClip:  {{"edges", "Maisano F et al. Eur J Cardiothorac Surg 1999;15:419–425"}, {"edges", "Herrmann HC et al. EuroIntervention 2009;4:437–442"}}, // physics.md S1, S2
	repair.FullRing:  {{"ring", "Jensen MO et al. J Thorac Cardiovasc Surg 2014;148:83"}},                                                                      // anatomy.md S46
}

// sources lists the main published sources of what cases show, each once.
func (g *Gallery) sources(cases ...casefile.Case) string {
	list := append([]citation{}, always...)
	for _, c := range cases {
		for _, st := range c.Repairs {
			list = append(list, byRepair[st.Kind]...)
		}
	}
	seen := map[string]bool{}
	var out []string
	for _, c := range list {
		if !seen[c.text] {
			seen[c.text] = true
			out = append(out, g.d.W().T("source."+c.topic)+": "+c.text)
		}
	}
	return strings.Join(out, "; ") + "."
}
