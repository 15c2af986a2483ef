namespace MicRegister.Register.Facts;

/// <summary>Gives the facts of one log by their sequence. The bytes come from the log itself; the register keeps keys, not bodies.</summary>
public interface IFactSource
{
    /// <summary>The fact with a sequence from 1 on.</summary>
    Fact Read(int sequence);
}
