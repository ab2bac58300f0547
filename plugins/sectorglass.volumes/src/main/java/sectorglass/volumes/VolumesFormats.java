package sectorglass.volumes;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.decode.BundleFormats;
import sectorglass.decode.FormatFolder;

/** The specs of this bundle's structures. */
@Component(service = FormatFolder.class)
@ServiceProvider(value = FormatFolder.class, resolution = Resolution.OPTIONAL)
public final class VolumesFormats extends BundleFormats {

    /** The folder of this bundle. */
    public VolumesFormats() {
        super("sectorglass.volumes");
    }
}
