package sectorglass.drive;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.decode.BundleFormats;
import sectorglass.decode.FormatFolder;

/** The specs of sectors in which a drive describes itself. */
@Component(service = FormatFolder.class)
@ServiceProvider(value = FormatFolder.class, resolution = Resolution.OPTIONAL)
public final class DriveFormats extends BundleFormats {

    /** The specs of this bundle. */
    public DriveFormats() {
        super("sectorglass.drive");
    }
}
