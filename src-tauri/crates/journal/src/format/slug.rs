//! Readable ASCII words for names of files and directories.

/// A name as lower-case ASCII letters, digits and single dashes, at most `most` bytes; `otherwise` when
/// nothing of it can be written so. It never decides anything: identity comes from content.
#[must_use]
pub(crate) fn slug(name: &str, most: usize, otherwise: &str) -> String {
    let mut out = String::new();
    for c in name.chars().flat_map(char::to_lowercase) {
        let plain: &str = match c {
            'a'..='z' | '0'..='9' => {
                out.push(c);
                ""
            }
            'à' | 'á' | 'â' | 'ã' | 'å' | 'ā' | 'ą' => "a",
            'ä' | 'æ' => "ae",
            'ç' | 'ć' | 'č' => "c",
            'ď' | 'đ' | 'ð' => "d",
            'è' | 'é' | 'ê' | 'ë' | 'ē' | 'ę' | 'ě' => "e",
            'ì' | 'í' | 'î' | 'ï' | 'ī' => "i",
            'ł' => "l",
            'ñ' | 'ń' | 'ň' => "n",
            'ò' | 'ó' | 'ô' | 'õ' | 'ø' | 'ō' => "o",
            'ö' | 'œ' => "oe",
            'ř' => "r",
            'ß' => "ss",
            'ś' | 'š' => "s",
            'ù' | 'ú' | 'û' | 'ū' | 'ů' => "u",
            'ü' => "ue",
            'ý' | 'ÿ' => "y",
            'ź' | 'ż' | 'ž' => "z",
            '\'' | '’' | '\u{300}'..='\u{36f}' => "",
            _ if out.ends_with('-') || out.is_empty() => "",
            _ => "-",
        };
        out.push_str(plain);
        if out.len() >= most {
            out.truncate(most);
            break;
        }
    }
    let trimmed = out.trim_matches('-');
    if trimmed.is_empty() { otherwise.to_owned() } else { trimmed.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::slug;

    #[test]
    fn names_become_words() {
        assert_eq!(slug("Blue Scarf, for Ann’s birthday!", 40, "warp"), "blue-scarf-for-anns-birthday");
        assert_eq!(slug("Läufer größer", 40, "warp"), "laeufer-groesser");
        assert_eq!(slug("../../etc/passwd", 40, "warp"), "etc-passwd");
        assert_eq!(slug("スカーフ", 40, "warp"), "warp");
        assert_eq!(slug("aaaaaaaaaa", 4, "warp"), "aaaa");
    }
}
