package sectorglass.drive;

import java.util.Optional;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.disk.CapacityRule;
import sectorglass.disk.Nominal;

/**
 * Nominal capacities. Up to 8000 GB the formulas of IDEMA LBA1-02 and LBA1-03; above, SFF-8447 (rev 0.5, section 4.2.1): rounded up to
 * whole GiB. Not binding for makers: a match is strong evidence of a full image, a mismatch a question.
 */
@Component(service = CapacityRule.class)
@ServiceProvider(value = CapacityRule.class, resolution = Resolution.OPTIONAL)
public final class SoldCapacities implements CapacityRule {
    private static final long[] SOLD = {40, 60, 80, 100, 120, 128, 160, 200, 240, 250, 256, 300, 320, 400, 480, 500, 512, 640, 750, 960,
        1000, 1500, 1920, 2000, 2500, 3000, 3840, 4000, 5000, 6000, 8000, 10000, 12000, 14000, 16000, 18000, 20000};
    private static final long LIMIT = 8000;
    private static final long GB = 1_000_000_000L;
    private static final long GIB = 1L << 30;
    private static final long SMALLEST = 40;

    @Override
    public Optional<Nominal> nearest(long sectors, int sectorSize) {
        if (sectorSize != 512 && sectorSize != 4096) {
            return Optional.empty();
        }
        long exact = exact(sectors, sectorSize);
        if (exact > 0) {
            return Optional.of(new Nominal(exact, sectors, true, source(exact)));
        }
        Nominal best = null;
        for (long gigabytes : SOLD) {
            long full = sectors(gigabytes, sectorSize);
            long off = Math.abs(sectors - full);
            boolean near = sectors < full ? off <= full / 100 : off <= full / 1000;
            if (near && (best == null || off < Math.abs(sectors - best.sectors()))) {
                best = new Nominal(gigabytes, full, sectors >= full, source(gigabytes));
            }
        }
        return Optional.ofNullable(best);
    }

    private static String source(long gigabytes) {
        return gigabytes <= LIMIT ? "IDEMA LBA1-02/LBA1-03" : "SFF-8447, section 4.2.1";
    }

    /** The capacity in GB that has exactly this many sectors, or 0. Above 8000 GB every whole GiB would do: sold ones only. */
    private static long exact(long sectors, int sectorSize) {
        long step = sectorSize == 512 ? 1_953_504 : 244_188;
        long gigabytes = 50 + Math.floorDiv(sectors - sectors(50, sectorSize), step);
        if (gigabytes >= SMALLEST && gigabytes <= LIMIT && sectors(gigabytes, sectorSize) == sectors) {
            return gigabytes;
        }
        for (long sold : SOLD) {
            if (sold > LIMIT && sectors(sold, sectorSize) == sectors) {
                return sold;
            }
        }
        return 0;
    }

    /**
     * Logical sectors of a drive.
     *
     * @param gigabytes nominal capacity in units of 10^9 bytes
     * @param sectorSize 512 or 4096
     */
    static long sectors(long gigabytes, int sectorSize) {
        if (gigabytes > LIMIT) {
            return (gigabytes * GB + GIB - 1) / GIB * (GIB / sectorSize);
        }
        return sectorSize == 512 ? 97_696_368 + 1_953_504 * (gigabytes - 50) : 12_212_046 + 244_188 * (gigabytes - 50);
    }
}
