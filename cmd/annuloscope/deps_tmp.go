package main

import (
	_ "codeberg.org/go-pdf/fpdf"
	_ "github.com/alecthomas/kong"
	_ "github.com/chromedp/chromedp"
	_ "github.com/go-fonts/liberation/liberationsansregular"
	_ "github.com/go-fonts/dejavu/dejavusans"
	_ "github.com/google/go-cmp/cmp"
	_ "github.com/hajimehoshi/ebiten/v2"
	_ "github.com/hajimehoshi/ebiten/v2/text/v2"
	_ "github.com/hajimehoshi/ebiten/v2/inpututil"
	_ "github.com/lucasb-eyer/go-colorful"
	_ "github.com/santhosh-tekuri/jsonschema/v6"
	_ "github.com/schollz/progressbar/v3"
	_ "go.yaml.in/yaml/v3"
	_ "golang.org/x/image/font/opentype"
	_ "golang.org/x/image/vector"
	_ "golang.org/x/sync/errgroup"
	_ "golang.org/x/text/language"
	_ "golang.org/x/text/message"
	_ "gonum.org/v1/gonum/spatial/r3"
	_ "gonum.org/v1/plot"
	_ "pgregory.net/rapid"
)

func main() {}
