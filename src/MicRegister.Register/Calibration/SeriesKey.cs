namespace MicRegister.Register.Calibration;

/// <summary>What makes results comparable: results that differ in any of this are no one series.</summary>
public sealed record SeriesKey(string Quantity, string? Field, double? AngleDeg, string? Loading, double? FrequencyHz, string? Method)
{
    public static SeriesKey Of(CertificateIssued c) => new(c.Quantity, c.Field, c.AngleDeg, c.Loading, c.FrequencyHz, c.Method);
}
