namespace MicRegister.Server.Remote;

/// <summary>A server was asked to store something and its answer did not arrive: nobody here knows whether it was stored.</summary>
internal sealed class AnswerLostException(string address, string why, Exception? inner = null) : Exception(
    $"The answer of {address} was lost ({why.TrimEnd('.')}), so that it is not known whether it was stored. "
    + "Repeating the same command is safe: nothing is stored twice.", inner);
