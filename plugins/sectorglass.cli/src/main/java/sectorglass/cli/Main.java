package sectorglass.cli;

import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.Callable;

import picocli.CommandLine;
import sectorglass.image.ImageException;
import sectorglass.image.Progress;

/**
 * Runs one command. Exit status: 0 done, 1 a finding at risk or unusable (verify) or a bad spec (formats check), 2 wrong use, 3 the
 * image cannot be read, 4 stopped by the user, 5 nothing worse than cosmetic but something could not be checked, or incomplete, 6 output
 * could not be written, 7 a fault of ours. Errors are one or two sentences on standard error.
 */
public final class Main {

    private Main() {
    }

    /** Starts a command and ends the process with its status. */
    public static void main(String[] args) {
        PrintStream out = new PrintStream(new java.io.FileOutputStream(java.io.FileDescriptor.out), false, StandardCharsets.UTF_8);
        PrintStream err = new PrintStream(new java.io.FileOutputStream(java.io.FileDescriptor.err), true, StandardCharsets.UTF_8);
        int status = run(args, new PrintStream(new java.io.BufferedOutputStream(out, 1 << 16), false, StandardCharsets.UTF_8), err);
        System.exit(status);
    }

    /** Runs a command with these streams and gives its exit status; ends no process. */
    public static int run(String[] args, PrintStream out, PrintStream err) {
        int status = Status.FAULT;
        try {
            status = start(args, out, err);
        } catch (RuntimeException | Error e) {
            status = fault(e, err);
        } finally {
            out.flush();
        }
        if (out.checkError() && status != Status.FAULT) {
            err.println("The output could not be written: the disk may be full, or the reader went away.");
            return Status.OUTPUT;
        }
        return status;
    }

    private static int start(String[] args, PrintStream out, PrintStream err) {
        if (args.length == 0 || args[0].equals("--help") || args[0].equals("-h") || args[0].equals("help")) {
            Overview.print(out);
            return args.length == 0 ? Status.USE : Status.DONE;
        }
        if (args[0].equals("--version")) {
            out.println("Sectorglass " + Overview.version());
            return Status.DONE;
        }
        Callable<Integer> command = CommandTable.create(args[0], out, err);
        if (command == null) {
            err.println("There is no command \"" + args[0] + "\". \"sectorglass --help\" lists the commands.");
            return Status.USE;
        }
        if (command instanceof ImageCommand reading) {
            reading.prepare();
        }
        // no option is a date or comes from a database; getting ready to read such is a good part of a short command's time
        System.setProperty("picocli.converters.excludes", "java.time.*,java.sql.*");
        CommandLine line = new CommandLine(command instanceof ImageCommand reading ? reading.spec() : command);
        line.setCommandName("sectorglass " + args[0]);
        line.setOut(new java.io.PrintWriter(out, true, StandardCharsets.UTF_8));
        line.setErr(new java.io.PrintWriter(err, true, StandardCharsets.UTF_8));
        line.setUsageHelpAutoWidth(true);
        line.setColorScheme(CommandLine.Help.defaultColorScheme(CommandLine.Help.Ansi.OFF));
        line.setParameterExceptionHandler((wrong, given) -> {
            err.println(sentence(wrong.getMessage()) + " \"sectorglass " + args[0] + " --help\" shows its use.");
            return Status.USE;
        });
        line.setExecutionExceptionHandler((failed, of, parsed) -> failed(failed, err));
        return line.execute(java.util.Arrays.copyOfRange(args, 1, args.length));
    }

    private static int failed(Exception failed, PrintStream err) {
        if (failed instanceof CommandException said) {
            err.println(said.getMessage());
            return said.status();
        }
        if (failed instanceof ImageException said) {
            err.println(said.getMessage());
            return Status.IMAGE;
        }
        if (failed instanceof Progress.Stopped) {
            err.println("Stopped.");
            return Status.STOPPED;
        }
        return fault(failed, err);
    }

    private static int fault(Throwable failed, PrintStream err) {
        if (Boolean.getBoolean("sectorglass.trace")) {
            failed.printStackTrace(err);
        }
        err.println("This is a fault of Sectorglass, not of the image: " + failed
                + ". Please report it with the command you gave; -Dsectorglass.trace=true in JAVA_TOOL_OPTIONS shows where it happened.");
        return Status.FAULT;
    }

    private static String sentence(String message) {
        return message == null ? "The command was not understood." : message.endsWith(".") ? message : message + ".";
    }
}
