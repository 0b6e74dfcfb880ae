//! The program: everything is in the library, so that tests and benchmarks reach it.

fn main() -> std::process::ExitCode {
    rackful::cli::main()
}
