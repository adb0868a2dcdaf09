package scenes

import (
	"strings"

	"annuloscope/scenes/present/input"

	"github.com/hajimehoshi/ebiten/v2"
)

// keyName returns the screen's name of a key, or nothing for a key that screens do not use. Letters go by what is
// printed on the person's keyboard where Ebitengine knows it, so that shortcuts are where they are expected.
func keyName(k ebiten.Key) input.Key {
	if k >= ebiten.KeyA && k <= ebiten.KeyZ {
		if name := ebiten.KeyName(k); len(name) == 1 && name[0] >= 'a' && name[0] <= 'z' {
			return input.Key(strings.ToUpper(name))
		}
		return input.Key(k.String())
	}
	if k >= ebiten.KeyDigit0 && k <= ebiten.KeyDigit9 {
		return input.Key(rune('0' + k - ebiten.KeyDigit0))
	}
	if k >= ebiten.KeyNumpad0 && k <= ebiten.KeyNumpad9 {
		return input.Key(rune('0' + k - ebiten.KeyNumpad0))
	}
	switch k {
	case ebiten.KeyTab:
		return input.Tab
	case ebiten.KeyEnter, ebiten.KeyNumpadEnter:
		return input.Enter
	case ebiten.KeySpace:
		return input.Space
	case ebiten.KeyEscape:
		return input.Escape
	case ebiten.KeyArrowLeft:
		return input.Left
	case ebiten.KeyArrowRight:
		return input.Right
	case ebiten.KeyArrowUp:
		return input.Up
	case ebiten.KeyArrowDown:
		return input.Down
	case ebiten.KeyPageUp:
		return input.PageUp
	case ebiten.KeyPageDown:
		return input.PageDown
	case ebiten.KeyHome:
		return input.Home
	case ebiten.KeyEnd:
		return input.End
	case ebiten.KeyBackspace:
		return input.Backspace
	case ebiten.KeyDelete:
		return input.Delete
	case ebiten.KeyEqual, ebiten.KeyNumpadAdd:
		return input.Plus
	case ebiten.KeyMinus, ebiten.KeyNumpadSubtract:
		return input.Minus
	case ebiten.KeyComma:
		return input.Comma
	case ebiten.KeyPeriod, ebiten.KeyNumpadDecimal:
		return input.Period
	case ebiten.KeySlash, ebiten.KeyNumpadDivide:
		return input.Slash
	case ebiten.KeyBracketLeft:
		return input.LeftSq
	case ebiten.KeyBracketRight:
		return input.RightSq
	}
	if k >= ebiten.KeyF1 && k <= ebiten.KeyF12 {
		return input.Key(k.String())
	}
	return ""
}
