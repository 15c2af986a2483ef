using MicRegister.Register.Facts;

namespace MicRegister.Register.Tracing;

/// <summary>
/// A person looked at a doubt and said what it comes to (ISO/IEC 17025:2017, 7.10). Subjects: the device, then the events it speaks of.
/// The last word on an event counts.
/// </summary>
/// <param name="Cause">Key of the doubt.</param>
/// <param name="IsConfirmed">Whether the results are indeed not to be relied on.</param>
/// <param name="Events">Ids of the events; empty speaks of all that it touches.</param>
/// <param name="Reason">Why.</param>
public sealed record DoubtSettled(string Cause, bool IsConfirmed, IReadOnlyList<string> Events, string Reason) : FactBody;

/// <summary>
/// The direction that sound came from. Subjects: the event where it is of one, then the campaign. What is said of a station and an event comes
/// before what is said of either, and that before what is said of the campaign; of several the last one counts.
/// </summary>
/// <param name="Station">Name of the station; null for all.</param>
/// <param name="AngleDeg">Angle of incidence in °: 0 along the microphone's axis onto the diaphragm, 90 grazing, 180 from behind.</param>
/// <param name="HalfWidthDeg">How far it may lie from there, in °, not negative; null is taken as 0.</param>
/// <param name="Reason">How that is known.</param>
public sealed record IncidenceStated(string? Station, double AngleDeg, double? HalfWidthDeg, string Reason) : FactBody;
