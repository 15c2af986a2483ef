using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Drift;

/// <summary>Whose histories are pooled: devices of one kind, maker and model, whose newest results are of one series.</summary>
/// <param name="Kind">Key of the kind.</param>
/// <param name="Maker">Maker as it counts for identity.</param>
/// <param name="Model">Model as it counts for identity; empty where it is not known.</param>
/// <param name="Alone">Id of the device where its model is not known: it is a model of its own.</param>
/// <param name="Series">What was measured and how.</param>
public sealed record ModelKey(string Kind, string Maker, string Model, string? Alone, SeriesKey Series)
{
    public static ModelKey Of(DeviceState device, SeriesKey series) =>
        new(device.Kind ?? "", DeviceIdentity.Normal(device.Maker), DeviceIdentity.Normal(device.Model), DeviceIdentity.Normal(device.Model).Length == 0 ? device.Id : null, series);
}
