//! One TypeScript or TSX file to one ES module.
//!
//! Types are stripped, JSX becomes calls of Preact's automatic runtime, newer syntax is brought down to ES2022. File by file
//! without looking at others: the sources keep to `verbatimModuleSyntax` and `erasableSyntaxOnly`, so that is exact.

use std::fmt;
use std::path::Path;

use oxc::allocator::Allocator;
use oxc::codegen::{Codegen, CodegenOptions};
use oxc::diagnostics::OxcDiagnostic;
use oxc::minifier::{Minifier, MinifierOptions};
use oxc::parser::Parser;
use oxc::semantic::SemanticBuilder;
use oxc::span::SourceType;
use oxc::transformer::{JsxRuntime, TransformOptions, Transformer};

/// What is wrong with a source file and where, as `web/frame/tape.tsx:12:3: expected ...`.
#[derive(Debug)]
pub(crate) struct Fault {
    name: String,
    line: usize,
    column: usize,
    says: String,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            name,
            line,
            column,
            says,
        } = self;
        write!(f, "{name}:{line}:{column}: {says}")
    }
}

/// Compiles `text`; `name` is its path from the repository, for messages and to tell `.ts` from `.tsx`.
///
/// # Errors
/// Every syntax fault the parser, the scope check or the transformation found, in that order of stages.
pub(crate) fn module(text: &str, name: &str, minify: bool) -> Result<String, Vec<Fault>> {
    let path = Path::new(name);
    let plain = |says: String| {
        vec![Fault {
            name: name.to_owned(),
            line: 1,
            column: 1,
            says,
        }]
    };
    let source_type = SourceType::from_path(path).map_err(|error| plain(error.to_string()))?;
    let faults = |found: &mut dyn Iterator<Item = &OxcDiagnostic>| -> Result<(), Vec<Fault>> {
        let found: Vec<_> = found.map(|one| fault(text, name, one)).collect();
        if found.is_empty() { Ok(()) } else { Err(found) }
    };

    let allocator = Allocator::default();
    let parsed = Parser::new(&allocator, text, source_type).parse();
    faults(&mut parsed.diagnostics.iter())?;
    let mut program = parsed.program;

    let checked = SemanticBuilder::new()
        .with_check_syntax_error(true)
        .with_build_nodes(true)
        .with_excess_capacity(2.0)
        .with_enum_eval(true)
        .build(&program);
    faults(&mut checked.diagnostics.iter())?;
    let scoping = checked.semantic.into_scoping();

    let mut options = TransformOptions::from_target("es2022").map_err(plain)?;
    options.jsx.runtime = JsxRuntime::Automatic;
    options.jsx.import_source = Some("preact".to_owned());
    options.jsx.throw_if_namespace = false;
    options.typescript.only_remove_type_imports = true;
    let transformed = Transformer::new(&allocator, path, &options).build_with_scoping(scoping, &mut program);
    faults(&mut transformed.diagnostics.iter())?;

    if !minify {
        return Ok(Codegen::new().build(&program).code);
    }
    let shortened = Minifier::new(MinifierOptions::default()).minify(&allocator, &mut program);
    Ok(Codegen::new()
        .with_options(CodegenOptions::minify())
        .with_scoping(shortened.scoping)
        .build(&program)
        .code)
}

fn fault(text: &str, name: &str, found: &OxcDiagnostic) -> Fault {
    let offset = found
        .labels
        .iter()
        .next()
        .map_or(0, |label| label.offset() as usize);
    let before = text.get(..offset).unwrap_or(text);
    let line = before.matches('\n').count() + 1;
    let column = before.rsplit('\n').next().map_or(0, |tail| tail.chars().count()) + 1;
    let mut says = found.message.to_string();
    if let Some(help) = &found.help {
        says.push_str("; ");
        says.push_str(help);
    }
    // One fault, one line: cargo prints nothing after a line break.
    let says = says.split_whitespace().collect::<Vec<_>>().join(" ");
    Fault {
        name: name.to_owned(),
        line,
        column,
        says,
    }
}
