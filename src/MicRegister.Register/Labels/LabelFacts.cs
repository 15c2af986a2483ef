using MicRegister.Register.Facts;

namespace MicRegister.Register.Labels;

/// <summary>
/// A label was put on something. Subjects: the label, then the device, or the campaign whose station it stands at. Two bindings of
/// one code to different things are a finding; a code whose binding was annulled is used up all the same.
/// </summary>
/// <param name="Code">The code, nine characters.</param>
/// <param name="Station">Name of the station, where it is a campaign's; null for a device.</param>
public sealed record LabelBound(string Code, string? Station) : FactBody;
