namespace MicRegister.Register.Facts;

/// <summary>
/// A body that says what was done or seen in a campaign. What others say of the campaign later does not rest upon it, unless they speak of
/// its devices there. Subjects: the campaign, then the devices where there are any.
/// </summary>
public interface IObservation;
