/// <reference lib="webworker" />
import { serve } from './serve';

serve();
