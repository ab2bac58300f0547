package sectorglass.drive;

import java.util.Locale;
import java.util.Optional;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.disk.DriveDataProvider;
import sectorglass.disk.DriveHealth;
import sectorglass.disk.DriveIdentity;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Phrase;

/** IDENTIFY DEVICE and SMART sectors of ATA drives. */
@Component(service = DriveDataProvider.class)
@ServiceProvider(value = DriveDataProvider.class, resolution = Resolution.OPTIONAL)
public final class AtaData implements DriveDataProvider {
    private static final int ALWAYS_FAILS = 0xFF;

    @Override
    public Optional<DriveIdentity> identify(Window data) {
        return data.length() < LENGTH ? Optional.empty() : Optional.of(new IdentifyData(data).identity());
    }

    @Override
    public Optional<DriveHealth> health(Window data, Window thresholds) {
        return data.length() < LENGTH ? Optional.empty() : Optional.of(new SmartData(data, thresholds).health());
    }

    @Override
    public void checkIdentity(Window data, SectorImage image, Checks all) {
        if (data.length() < LENGTH) {
            return;
        }
        IdentifyData identify = new IdentifyData(data);
        Checks out = all.in(data.range(0, LENGTH));
        Mark sum = out.check("ata.identify.checksum", identify.where(IdentifyData.INTEGRITY, 1), () -> {
            data.require(0, LENGTH);
            return identify.hasChecksum() ? Outcome.test(data.u8(511) == identify.checksum(), hex(data.u8(511)), hex(identify.checksum()))
                    : Outcome.undecided("word 255 holds no checksum");
        });
        Mark cause = sum.failed() ? sum : null;
        out.check("ata.identify.device", identify.where(0, 1), () -> Outcome.test(identify.ata(),
                String.format(Locale.ROOT, "%04X", identify.word(0)), "bit 15 clear").because(cause));
        strings(identify, cause, out);
        out.check("ata.identify.sector-counts", identify.where(IdentifyData.LBA28, 2), () -> !identify.lba48() ? null
                : Outcome.test(identify.sectors28() == Math.min(identify.sectors48(), IdentifyData.LBA28_MAX), identify.sectors28(),
                        Math.min(identify.sectors48(), IdentifyData.LBA28_MAX)).because(cause));
        if (image != null) {
            ByteRange where = identify.lba48() ? identify.where(IdentifyData.LBA48, 4) : identify.where(IdentifyData.LBA28, 2);
            out.check("ata.identify.image-sectors", where, () -> compare(identify, image).because(cause));
        }
    }

    private static Outcome compare(IdentifyData identify, SectorImage image) {
        long drive = identify.sectors();
        long most = Long.MAX_VALUE / identify.sectorBytes();
        long right = drive >= 0 && drive <= most ? drive * identify.sectorBytes() / image.sectorSize() : drive;
        return Outcome.test(image.sectors() == right, image.sectors(), Long.toUnsignedString(right))
                .with("problem", Phrase.of(Long.compareUnsigned(image.sectors(), right) < 0 ? "problem.short" : "problem.long"));
    }

    private static void strings(IdentifyData identify, Mark cause, Checks out) {
        int[][] fields = {{IdentifyData.SERIAL, IdentifyData.SERIAL_WORDS}, {IdentifyData.FIRMWARE, IdentifyData.FIRMWARE_WORDS},
            {IdentifyData.MODEL, IdentifyData.MODEL_WORDS}};
        for (int[] field : fields) {
            out.check("ata.identify.strings", identify.where(field[0], field[1]), () -> {
                String text = identify.text(field[0], field[1]);
                return Outcome.test(text.matches("[ -~]*"), text.replaceAll("[^ -~]", "."), "printable characters").because(cause);
            });
        }
    }

    @Override
    public void checkHealth(Window data, Window thresholds, Checks all) {
        if (data.length() < LENGTH) {
            return;
        }
        Checks out = all.in(data.range(0, LENGTH));
        Mark sum = out.check("ata.smart.checksum", data.range(SmartData.CHECKSUM, 1), () -> sum(data));
        Mark limits = thresholds == null || thresholds.length() < LENGTH ? null : all.in(thresholds.range(0, LENGTH))
                .check("ata.smart.threshold-checksum", thresholds.range(SmartData.CHECKSUM, 1), () -> sum(thresholds));
        SmartData smart = new SmartData(data, thresholds);
        for (int i = 0; i < SmartData.COUNT; i++) {
            int index = i;
            out.check("ata.smart.attribute", data.range(SmartData.at(i), SmartData.SIZE), () -> attribute(smart.attribute(index),
                    sum.failed() ? sum : limits != null && limits.failed() ? limits : null));
        }
    }

    private static Outcome attribute(DriveHealth.Attribute attribute, Mark cause) {
        if (attribute == null || attribute.failing() == null) {
            return null;
        }
        boolean failing = attribute.failing() || attribute.threshold() == ALWAYS_FAILS;
        return Outcome.test(!failing, attribute.value(), "more than " + attribute.threshold())
                .with("id", attribute.id()).with("name", attribute.name()).because(cause);
    }

    private static Outcome sum(Window sector) {
        sector.require(0, LENGTH);
        return Outcome.test(sector.u8(SmartData.CHECKSUM) == SmartData.checksum(sector), hex(sector.u8(SmartData.CHECKSUM)),
                hex(SmartData.checksum(sector)));
    }

    private static String hex(int value) {
        return String.format(Locale.ROOT, "%02X", value);
    }
}
