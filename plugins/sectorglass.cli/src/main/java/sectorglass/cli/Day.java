package sectorglass.cli;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;

import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** Reads a day such as 2026-01-31. */
final class Day implements ITypeConverter<LocalDate> {

    @Override
    public LocalDate convert(String value) {
        try {
            return LocalDate.parse(value);
        } catch (DateTimeParseException e) {
            throw new TypeConversionException("\"" + value + "\" is no day; give it as 2026-01-31.");
        }
    }
}
