//! Text in tokens: digits, words and signs, whatever alphabet the keyboard was set to.
//!
//! Fullwidth forms, dashes, crosses and fraction strokes are folded to one form each; every Unicode space is a space.

/// What comes next in the text.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) enum Token<'a> {
    /// Digits with points and commas between them.
    Digits(&'a str),
    /// Letters, with the dot of an abbreviation.
    Word(&'a str),
    /// Any other character, folded.
    Sign(char),
    /// Nothing is left.
    End,
}

/// A place between two tokens of a text; copying it is how to look ahead.
#[derive(Clone, Copy)]
pub(super) struct Reader<'a> {
    text: &'a str,
    /// The token that comes next, found once however often it is looked at.
    next: Token<'a>,
    /// Whether spaces stand before it.
    spaced: bool,
    /// The bytes it begins and ends at.
    start: usize,
    end: usize,
}

impl<'a> Reader<'a> {
    pub(super) fn new(text: &'a str) -> Self {
        Reader::at(text, 0)
    }

    fn at(text: &'a str, before: usize) -> Self {
        let rest = text[before..].trim_start_matches(is_space);
        let start = text.len() - rest.len();
        let length;
        let next = match rest.chars().next() {
            None => {
                length = 0;
                Token::End
            }
            Some(_) if starts_number(rest) => {
                length = number_length(rest);
                Token::Digits(&rest[..length])
            }
            Some(first) if is_letter(first) => {
                let letters = rest.find(|c| !is_letter(c)).unwrap_or(rest.len());
                length = letters + usize::from(rest[letters..].starts_with('.'));
                Token::Word(&rest[..length])
            }
            Some(first) => {
                length = first.len_utf8();
                Token::Sign(fold(first))
            }
        };
        Reader {
            text,
            next,
            spaced: before < start,
            start,
            end: start + length,
        }
    }

    /// The byte at which the next token begins.
    pub(super) fn next_start(self) -> usize {
        self.start
    }

    /// Moves past one token and tells whether spaces stood before it.
    #[inline]
    pub(super) fn next_token(&mut self) -> (Token<'a>, bool) {
        let found = self.peek();
        *self = Reader::at(self.text, self.end);
        found
    }

    #[inline]
    pub(super) fn peek(self) -> (Token<'a>, bool) {
        (self.next, self.spaced)
    }

    #[inline]
    pub(super) fn at_end(self) -> bool {
        self.peek().0 == Token::End
    }

    /// Whether digits or a fraction sign come next.
    pub(super) fn peek_number(self) -> bool {
        match self.peek().0 {
            Token::Digits(_) => true,
            Token::Sign(sign) => sign.is_numeric(),
            _ => false,
        }
    }

    /// Whether a word follows without a space.
    pub(super) fn peek_tight_word(self) -> bool {
        matches!(self.peek(), (Token::Word(_), false))
    }

    /// Moves past this sign if it comes next.
    #[inline]
    pub(super) fn sign(&mut self, sign: char) -> bool {
        let found = self.next == Token::Sign(sign);
        if found {
            self.next_token();
        }
        found
    }

    /// Moves past the next word if it is one of these; capitals do not matter.
    #[inline]
    pub(super) fn word(&mut self, words: &[&str]) -> bool {
        let found = matches!(self.next, Token::Word(word) if is_one_of(word, words));
        if found {
            self.next_token();
        }
        found
    }

    /// Whether a word of this many bytes or more comes next.
    #[inline]
    pub(super) fn word_of_at_least(self, bytes: usize) -> bool {
        matches!(self.next, Token::Word(word) if bytes <= word.len())
    }

    /// Moves past "a" or "an", or what German has for them.
    pub(super) fn article(&mut self) -> bool {
        self.word(&["a", "an", "ein", "eine", "einen"])
    }

    /// Moves past a hyphen with no space on either side.
    pub(super) fn tight_hyphen(&mut self) {
        if self.peek() != (Token::Sign('-'), false) {
            return;
        }
        let mut after = *self;
        after.next_token();
        if !after.peek().1 {
            *self = after;
        }
    }

    /// Whether a hyphen ties the word just read to another one.
    pub(super) fn hyphenated(mut self) -> bool {
        self.peek() == (Token::Sign('-'), false) && {
            self.next_token();
            self.peek_tight_word()
        }
    }

    /// Whether these digits and the next ones look like one number with a space for thousands: "1 250".
    pub(super) fn splits_thousands(mut self, digits: &str) -> bool {
        let (Token::Digits(next), true) = self.peek() else {
            return false;
        };
        let all_numeric = |digits: &str| digits.chars().all(char::is_numeric);
        let short = digits.chars().count() <= 3 && all_numeric(digits);
        let next_is_three = next.chars().count() == 3 && all_numeric(next);
        self.next_token();
        short && next_is_three && !self.sign('/')
    }

    /// The beginning of what is left, for a message.
    pub(super) fn excerpt(self) -> String {
        const LONGEST: usize = 24;
        let rest = self.text[self.start..].trim_end();
        match rest.char_indices().nth(LONGEST) {
            Some((end, _)) => rest[..end].to_string() + "…",
            None => rest.to_string(),
        }
    }
}

/// Folds a character to the form the reader knows.
#[inline]
pub(super) fn fold(c: char) -> char {
    match c {
        '*' => '×',
        _ if c.is_ascii() => c,
        '\u{FF01}'..='\u{FF5E}' => char::from_u32(c as u32 - 0xFEE0).map_or(c, fold),
        '\u{2010}'..='\u{2015}' | '\u{2212}' => '-',
        '\u{2044}' | '\u{2215}' => '/',
        '✕' | '✖' | '⨯' => '×',
        '≈' | '∼' | '〜' => '~',
        _ => c,
    }
}

/// Returns a word with its letters folded and its dot gone; only the beginning of a very long one.
pub(super) fn key(word: &str) -> String {
    const LONGEST: usize = 48;
    word.chars().take(LONGEST).map(fold).filter(|c| *c != '.').collect()
}

/// Whether a word is one of these lower-case ones; capitals and dots do not matter.
pub(super) fn is_one_of(word: &str, known: &[&str]) -> bool {
    // Nearly every word typed is plain letters.
    if word.is_ascii() {
        let plain = word.strip_suffix('.').unwrap_or(word);
        return known.iter().any(|known| plain.eq_ignore_ascii_case(known));
    }
    let letters = || {
        word.chars()
            .map(fold)
            .filter(|c| *c != '.')
            .map(|c| c.to_ascii_lowercase())
    };
    known.iter().any(|known| letters().eq(known.chars()))
}

/// White space, and what takes no room at all in pasted text.
pub(crate) fn is_space(c: char) -> bool {
    c.is_whitespace() || matches!(c, '\u{200B}' | '\u{2060}' | '\u{FEFF}')
}

fn is_letter(c: char) -> bool {
    c.is_alphabetic() || matches!(c, '\'' | '’' | '\u{300}'..='\u{36F}')
}

fn is_digit(c: char) -> bool {
    fold(c).is_ascii_digit()
}

fn is_mark(c: char) -> bool {
    matches!(fold(c), '.' | ',')
}

fn starts_number(text: &str) -> bool {
    let mut chars = text.chars();
    match chars.next() {
        Some(first) if is_mark(first) => chars.next().is_some_and(is_digit),
        Some(first) => is_digit(first),
        None => false,
    }
}

/// Bytes of the digits at the start, with every point or comma that has a digit after it.
fn number_length(text: &str) -> usize {
    let mut chars = text.char_indices().peekable();
    while let Some((at, c)) = chars.next() {
        let inside = is_digit(c) || (is_mark(c) && chars.peek().is_some_and(|(_, next)| is_digit(*next)));
        if !inside {
            return at;
        }
    }
    text.len()
}
