package main

import (
	"errors"
	"syscall/js"

	"annuloscope/scenes/present/study"
)

const progressItem = "annuloscope-lessons"

// lessonKeeper keeps the progress in the lessons in the browser's own store for this page.
type lessonKeeper struct{}

// Keep stores the progress; a browser that stores nothing for this page refuses.
func (lessonKeeper) Keep(data []byte) error {
	return store(func(s js.Value) { s.Call("setItem", progressItem, string(data)) })
}

func store(use func(js.Value)) (err error) {
	defer func() {
		if recover() != nil { // reading localStorage itself throws where it is forbidden
			err = errors.New("this browser stores nothing for this page")
		}
	}()
	s := js.Global().Get("localStorage")
	if s.IsNull() || s.IsUndefined() {
		return errors.New("this browser stores nothing for this page")
	}
	use(s)
	return nil
}

func lessonProgress() (study.Keeper, []byte) {
	var data []byte
	err := store(func(s js.Value) {
		if v := s.Call("getItem", progressItem); v.Type() == js.TypeString {
			data = []byte(v.String())
		}
	})
	if err != nil {
		return nil, nil
	}
	return lessonKeeper{}, data
}
