namespace MicRegister.Register.Fold;

/// <summary>Work of one state of the register that the next state can carry on, where it knows what changed.</summary>
internal interface ICarriedOn
{
    /// <summary>The work of the next state.</summary>
    /// <param name="changed">Subjects that may say another thing now.</param>
    ICarriedOn Next(IReadOnlySet<string> changed);
}
