using MicRegister.Register.Facts;

namespace MicRegister.Register.Events;

/// <summary>
/// The direction that sound came from. Subjects: the event where it is of one, then the campaign. What is said of a station and an event comes
/// before what is said of either, and that before what is said of the campaign; of several the last one counts.
/// </summary>
/// <param name="Station">Name of the station; null for all.</param>
/// <param name="AngleDeg">Angle of incidence in °: 0 along the microphone's axis onto the diaphragm, 90 grazing, 180 from behind.</param>
/// <param name="HalfWidthDeg">How far it may lie from there, in °, not negative; null is taken as 0.</param>
/// <param name="Reason">How that is known.</param>
public sealed record IncidenceStated(string? Station, double AngleDeg, double? HalfWidthDeg, string Reason) : FactBody, IEventFact;
