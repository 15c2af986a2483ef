namespace MicRegister.Register.Facts;

/// <summary>
/// A body that says of devices that they stood at a station of a campaign, were checked there or were taken in from it.
/// Subjects: the campaign and the devices, among others.
/// </summary>
public interface IStay : IObservation;
