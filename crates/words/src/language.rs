//! The languages there are.

/// A language everything can be said in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Language {
    /// English as tailors in Britain write it.
    #[default]
    English,
    /// German.
    German,
}

impl Language {
    /// All of them; the first is the one everything was written in first.
    pub const ALL: [Language; 2] = [Language::English, Language::German];

    /// Its BCP 47 tag: `en`, `de`.
    pub const fn tag(self) -> &'static str {
        match self {
            Language::English => "en",
            Language::German => "de",
        }
    }

    /// Its own name for itself.
    pub const fn name(self) -> &'static str {
        match self {
            Language::English => "English",
            Language::German => "Deutsch",
        }
    }

    /// The language of a tag, if there is one.
    pub fn of_tag(tag: &str) -> Option<Language> {
        Language::ALL.into_iter().find(|l| l.tag() == tag)
    }

    /// The texts of its files, in a fixed order: name and content.
    pub(crate) const fn files(self) -> [(&'static str, &'static str); 7] {
        match self {
            Language::English => [
                ("booklet.ftl", include_str!("../en/booklet.ftl")),
                ("suit.ftl", include_str!("../en/suit.ftl")),
                ("advice.ftl", include_str!("../en/advice.ftl")),
                ("cautions.ftl", include_str!("../en/cautions.ftl")),
                ("make.ftl", include_str!("../en/make.ftl")),
                ("class.ftl", include_str!("../en/class.ftl")),
                ("sew.ftl", include_str!("../en/sew.ftl")),
            ],
            Language::German => [
                ("booklet.ftl", include_str!("../de/booklet.ftl")),
                ("suit.ftl", include_str!("../de/suit.ftl")),
                ("advice.ftl", include_str!("../de/advice.ftl")),
                ("cautions.ftl", include_str!("../de/cautions.ftl")),
                ("make.ftl", include_str!("../de/make.ftl")),
                ("class.ftl", include_str!("../de/class.ftl")),
                ("sew.ftl", include_str!("../de/sew.ftl")),
            ],
        }
    }
}
