"""tabforge: guitar exercises written as text, checked and exported as MusicXML with a TAB staff and as ASCII tab."""
