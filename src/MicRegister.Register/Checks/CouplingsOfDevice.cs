using System.Collections.Immutable;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Checks;

/// <summary>What was stated of couplings with a calibrator.</summary>
public static class CouplingsOfDevice
{
    extension(DeviceState device)
    {
        /// <summary>What was stated of couplings with it, where it is a calibrator, oldest first.</summary>
        public ImmutableArray<Dated<CouplingStated>> Couplings => device.Parts.Of<CouplingPart>()?.Couplings ?? [];

        internal DeviceState With(Dated<CouplingStated> coupling) =>
            device with { Parts = device.Parts.With(new CouplingPart(device.Couplings.Add(coupling))) };
    }

    /// <summary>What checks keep of a device.</summary>
    private sealed record CouplingPart(ImmutableArray<Dated<CouplingStated>> Couplings);
}
