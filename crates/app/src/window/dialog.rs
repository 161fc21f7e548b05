//! Asking the desktop for a file, without holding up the window.

use std::path::PathBuf;
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::time::{Duration, Instant};

use super::words::files as words;

/// An open question to the desktop. Poll it once a frame; it wakes the window when it is answered.
#[derive(Debug)]
pub struct Dialog {
    question: Question,
    asked: Instant,
    answer: Receiver<Option<PathBuf>>,
}

/// What is asked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Question {
    /// Which plan to open.
    Open {
        /// Where to look first.
        folder: Option<PathBuf>,
    },
    /// Where to save the plan.
    Save {
        /// Where to look first.
        folder: Option<PathBuf>,
        /// The name offered.
        name: String,
    },
    /// Where to write the sheet.
    Sheet {
        /// Where to look first.
        folder: Option<PathBuf>,
        /// The name offered.
        name: String,
    },
    /// Where to write the order list as pages.
    OrderPages {
        /// Where to look first.
        folder: Option<PathBuf>,
        /// The name offered.
        name: String,
    },
    /// Where to write the client's page.
    ClientPage {
        /// Where to look first.
        folder: Option<PathBuf>,
        /// The name offered.
        name: String,
    },
    /// Which file to take a build-up from.
    BuildUp {
        /// Where to look first.
        folder: Option<PathBuf>,
    },
    /// Which price list to open.
    OpenPrices {
        /// Where to look first.
        folder: Option<PathBuf>,
    },
    /// Where to save the price list.
    SavePrices {
        /// Where to look first.
        folder: Option<PathBuf>,
        /// The name offered.
        name: String,
    },
    /// Where to write the order list.
    Order {
        /// Where to look first.
        folder: Option<PathBuf>,
        /// The name offered.
        name: String,
    },
    /// Where to save a picture; the end of the name says of which kind.
    Picture {
        /// Where to look first.
        folder: Option<PathBuf>,
        /// The name offered.
        name: String,
    },
}

/// What came of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Answer {
    /// A file was named. Whether it exists, can be read or will be overwritten is not known here.
    Picked(PathBuf),
    /// The person closed the dialog.
    NothingPicked,
    /// There is no dialog on this desktop: offer a field for the path in the window instead.
    NoDialog,
}

/// An empty answer within this time was not given by a person. A desktop without a file portal answers in about 10 ms;
/// nobody sees a dialog open and closes it in less than half a second.
const AT_ONCE: Duration = Duration::from_millis(500);

impl Dialog {
    /// Asks in a thread of its own, since asking to save holds up the thread that asks.
    #[must_use]
    pub fn ask(question: Question, ctx: &egui::Context) -> Self {
        let asking = question.clone();
        Self::ask_with(question, ctx, move || asking.put_to_desktop())
    }

    fn ask_with(
        question: Question,
        ctx: &egui::Context,
        ask: impl FnOnce() -> Option<PathBuf> + Send + 'static,
    ) -> Self {
        let (send, answer) = channel();
        let wake = ctx.clone();
        // A thread that cannot be started drops `send`, which reads as an empty answer at once.
        let _ = std::thread::Builder::new()
            .name("file dialog".to_owned())
            .spawn(move || {
                // The window may have closed meanwhile; then nobody wants to know.
                let _ = send.send(ask());
                wake.request_repaint();
            });
        Self {
            question,
            asked: Instant::now(),
            answer,
        }
    }

    /// What was asked.
    #[must_use]
    pub fn question(&self) -> &Question {
        &self.question
    }

    /// The answer, once there is one; then drop the dialog.
    #[must_use]
    pub fn poll(&self) -> Option<Answer> {
        let answer = match self.answer.try_recv() {
            Ok(answer) => answer,
            Err(TryRecvError::Empty) => return None,
            Err(TryRecvError::Disconnected) => return Some(Answer::NoDialog),
        };
        Some(match answer {
            Some(path) => Answer::Picked(path),
            None if self.asked.elapsed() < AT_ONCE => Answer::NoDialog,
            None => Answer::NothingPicked,
        })
    }
}

impl Question {
    fn put_to_desktop(self) -> Option<PathBuf> {
        let dialog = rfd::FileDialog::new();
        let (plan, sheet, picture, table): (&[&str], &[&str], &[&str], &[&str]) =
            (&["ron"], &["pdf"], &["png", "svg"], &["csv"]);
        let (title, kind, endings, folder, name) = match self {
            Self::Open { folder } => (words::OPEN, words::PLAN_KIND, plan, folder, None),
            Self::Save { folder, name } => {
                (words::SAVE, words::PLAN_KIND, plan, folder, Some(name))
            }
            Self::Sheet { folder, name } => {
                (words::SHEET, words::SHEET_KIND, sheet, folder, Some(name))
            }
            Self::OrderPages { folder, name } => (
                words::ORDER_PAGES,
                words::SHEET_KIND,
                sheet,
                folder,
                Some(name),
            ),
            Self::ClientPage { folder, name } => (
                words::CLIENT_PAGE,
                words::SHEET_KIND,
                sheet,
                folder,
                Some(name),
            ),
            Self::Picture { folder, name } => (
                words::PICTURE,
                words::PICTURE_KIND,
                picture,
                folder,
                Some(name),
            ),
            Self::BuildUp { folder } => (words::BUILD_UP, words::BUILD_UP_KIND, plan, folder, None),
            Self::OpenPrices { folder } => {
                (words::OPEN_PRICES, words::PRICES_KIND, plan, folder, None)
            }
            Self::SavePrices { folder, name } => (
                words::SAVE_PRICES,
                words::PRICES_KIND,
                plan,
                folder,
                Some(name),
            ),
            Self::Order { folder, name } => {
                (words::ORDER, words::ORDER_KIND, table, folder, Some(name))
            }
        };
        let dialog = dialog.set_title(title).add_filter(kind, endings);
        let dialog = match folder {
            Some(folder) => dialog.set_directory(folder),
            None => dialog,
        };
        match name {
            Some(name) => dialog.set_file_name(name).save_file(),
            None => dialog.pick_file(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn settled(dialog: &Dialog) -> Answer {
        let patience = Instant::now();
        while patience.elapsed() < Duration::from_secs(20) {
            if let Some(answer) = dialog.poll() {
                return answer;
            }
            std::thread::sleep(Duration::from_millis(2));
        }
        panic!("no answer in 20 s");
    }

    fn asked(ask: impl FnOnce() -> Option<PathBuf> + Send + 'static) -> Answer {
        let ctx = egui::Context::default();
        settled(&Dialog::ask_with(
            Question::Open { folder: None },
            &ctx,
            ask,
        ))
    }

    #[test]
    fn answers_are_told_apart() {
        let path = PathBuf::from("quince-yard.ron");
        let picked = path.clone();
        assert_eq!(asked(move || Some(picked)), Answer::Picked(path));
        assert_eq!(asked(|| None), Answer::NoDialog);
        assert_eq!(
            asked(|| {
                std::thread::sleep(AT_ONCE + Duration::from_millis(50));
                None
            }),
            Answer::NothingPicked
        );
    }

    #[test]
    fn an_open_question_has_no_answer_yet() {
        let ctx = egui::Context::default();
        let (hold, held) = channel::<()>();
        let dialog = Dialog::ask_with(Question::Open { folder: None }, &ctx, move || {
            let _ = held.recv();
            None
        });
        assert_eq!(dialog.poll(), None);
        drop(hold);
        let _ = settled(&dialog);
    }
}
